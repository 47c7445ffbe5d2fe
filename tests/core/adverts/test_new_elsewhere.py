"""What new ones cost, and what is new no longer, makes no new goods."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 Solarmodule 300 W", "Neue kosten 150 Euro. 40 Euro pro Stück."),
        ("4 zonnepanelen 300 W", "Nieuwe kosten 150 euro. 40 euro per stuk."),
        ("4 panneaux solaires 300 W", "Plus tout neufs mais bons. 40 euros pièce."),
        ("4 panneaux solaires 300 W", "Ils ne sont plus neufs. 40 euros pièce."),
    ],
)
def test_new_ones_elsewhere_make_none_new(title, body):
    reading = reading_of(body, title)
    assert (reading.condition, reading.price.each) == ("unknown", 40)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 Solarmodule 300 W", "Neue Module, kosten 40 Euro das Stück."),
        ("4 Solarmodule 300 W", "Neu, nicht mehr benötigt. 40 Euro pro Stück."),
        ("4 solar panels 300 W", "Brand new, £40 each."),
        ("4 panneaux solaires 300 W", "Neufs, plus besoin. 40 euros pièce."),
    ],
)
def test_new_ones_on_offer_are_new(title, body):
    assert reading_of(body, title).condition == "new"
