"""Loose is not broken, a junction box named in full is no carton, and what is kept may not be of those on offer."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Omvormer los", "omvormer 600 W, 40 euro"),
        ("Wechselrichter lose", "600 W, 40 €"),
        ("Inverter løs", "600 W, 400 kr"),
        ("3 zonnepanelen 400 W", "met 3 losse micro-omvormers 350 W, alles samen 450 euro."),
    ],
)
def test_goods_that_are_sold_loose_are_not_broken(title, body):
    read = reading_of(title, body)
    assert (read.condition == "damaged", read.defects) == (False, ())


def test_a_junction_box_stays_broken_where_the_rest_is_fine():
    read = reading_of("5 panels", "5 x 300 W panels, used. One has a broken junction box, the rest fine. £20 each.")
    assert (read.defects, "part_damaged" in read.doubts) == (("broken_junction_box",), True)


@pytest.mark.parametrize(
    ("title", "body", "left"),
    [
        (
            "8 zonnepanelen 375 Wp",
            "8 zonnepanelen. Van de 12 houd ik er zelf 4, deze 8 mogen weg. 30 euro per stuk.",
            8,
        ),
        ("8 Module 300 W", "8 Module 300 W. 4 behalte ich als Ersatz, die gehören nicht zu den 8. 30 € Stück", 8),
        ("12 panels 300 W", "12 panels 300 W, taken down. Four I am keeping. £30 each", 8),
        ("12 Module 300 W", "12 Module 300 W, abgebaut. Vier behalte ich. 30 € Stück", 8),
    ],
)
def test_pieces_kept_come_off_only_where_they_are_of_those_told(title, body, left):
    assert reading_of(title, body).quantity_available == left
