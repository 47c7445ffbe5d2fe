"""What one costs beside what all of them cost, told by "the" and their number."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("9 panneaux 290 W", "20 € pièce ou 150 € les 9."),
        ("9 placas 290 W", "20 € cada una o 150 € las 9."),
        ("9 pannelli 290 W", "20 € l'uno o 150 € i 9."),
        ("9 painéis 290 W", "20 € cada ou 150 € os 9."),
    ],
)
@pytest.mark.parametrize("field", [None, "20 €", "150 €"])
def test_an_amount_for_the_nine_is_no_price_of_one(title, body, field):
    price = read_advert(Advert(title=title, body=body, price_text=field), WORDS).price
    assert (price.value, price.basis, price.each) == (20, "each", 20)


def test_an_amount_for_the_nine_alone_is_that_of_all():
    price = read_advert(Advert(title="9 panneaux 290 W", body="180 € les 9."), WORDS).price
    assert (price.value, price.basis, price.each) == (180, "lot", 20)
