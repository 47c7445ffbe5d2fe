"""A price for a pair, or for so many of more, is no price of all of them, nor of one."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# What one of them costs; the title; the text.
SOME = (
    (40, "10 solar panels 330 W", "sold in twos, £80 for the pair"),
    (37.5, "12 solar panels 330 W", "£150 per four"),
    (40, "10 Solarmodule 330 W", "Das Paar für 80 €"),
    (40, "10 Solarmodule 330 W", "im Doppelpack 80 €"),
    (37.5, "12 Solarmodule 330 W", "je 4 Stück 150 €"),
    (40, "10 zonnepanelen 330 Wp", "80 euro het paar"),
    (40, "10 panneaux 330 W", "par deux, 80 € la paire"),
    (40, "10 panneaux 330 W", "les deux pour 80 €"),
    (40, "10 placas 330 W", "80 € cada par"),
    (40, "10 pannelli 330 W", "80 € la coppia"),
    (150, "10 paneli 330 W", "300 zł za parę"),
    (40, "10 painéis 330 W", "80 € os dois"),
    (800, "10 panelů 330 W", "1600 Kč za dvojici"),
    (250, "10 solpaneler 330 W", "parret 500 kr."),
)
ALL_OR_ONE = (
    (40, "2 panneaux 330 W", "80 € les deux"),
    (40, "10 panels 330 W", "£40 each, a pair of cables included"),
    (40, "10 panels 330 W", "£400 the lot, pair of brackets free"),
    (40, "10 Module 330 W", "40 € pro Stück, ein paar Kratzer"),
    (40, "10 panneaux 330 W", "400 € les dix"),
    (30, "14 painéis 310 W", "30 € cada um"),
)


@pytest.mark.parametrize("field", ["", "same"])
@pytest.mark.parametrize(("each", "title", "text"), SOME)
def test_a_price_of_some_is_divided_by_them(each, title, text, field):
    amount = {"": None, "same": str(int(each * (4 if each == 37.5 else 2)))}[field]

    reading = read_advert(Advert(title=title, body=text, price_text=amount), WORDS)

    assert (reading.price.each, reading.price.basis) == (each, "lot")
    assert reading.quantity_available == int(title.split()[0])


@pytest.mark.parametrize(("each", "title", "text"), ALL_OR_ONE)
def test_a_price_of_all_or_of_one_stays(each, title, text):
    assert read_advert(Advert(title=title, body=text), WORDS).price.each == each
