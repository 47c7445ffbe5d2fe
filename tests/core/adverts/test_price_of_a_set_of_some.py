"""A set that tells how many it holds, and a number that is said to cost so much: the price is of so many."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# What one of them costs.
OF_SOME = (
    (40, "Nine 300 W panels. £120 for any set of three."),
    (40, "12 Module 300 W, vier Module kosten zusammen 160 Euro."),
    (35, "10 Module 300 W, zwei Stück kosten 70 Euro."),
    (40, "12 zonnepanelen 300 W, 160 euro per set van vier."),
    (40, "12 zonnepanelen 300 W, vier panelen samen 160 euro."),
    (40, "12 panneaux 300 W. Le lot de quatre 160 €."),
    (40, "9 panneaux 300 W. 120 € le lot de trois."),
    (40, "12 placas de 300 W. El lote de cuatro 160 €."),
    (35, "10 placas de 300 W, la pareja sale a 70 €."),
    (35, "10 pannelli 300 W, la coppia viene 70 €."),
    (40, "12 pannelli 300 W. Il lotto da quattro 160 €."),
    (150, "9 paneli 300 W, trzy sztuki kosztują 450 zł."),
    (40, "12 painéis 300 W. O lote de quatro 160 €."),
    (1000, "9 panelů 300 W, tři kusy stojí 3000 Kč."),
    (400, "9 paneler 300 W, tre stykker koster 1200 kr."),
)
OF_ALL_OR_ONE = (
    (40, "9 panels 300 W, £360 for the nine. Three have scratches."),
    (40, "9 panels 300 W, £40 each. Three cost me £200 once."),
    (40, "4 Module 300 W, vier Stück kosten 160 Euro."),
    (40, "4 panneaux 300 W. Le lot de quatre 160 €."),
    (40, "3 zonnepanelen 300 W, 120 euro per set van drie."),
    (40, "10 pannelli 300 W, 40 € l'uno, due staffe costano 15 €."),
    (150, "10 paneli 300 W, 150 zł sztuka, dwie sztuki mają rysy."),
    (400, "2 paneler 300 W, to stykker koster 800 kr."),
    (40, "12 panels 300 W, 4 panels and 8 panels together £480."),
)


@pytest.mark.parametrize(("each", "text"), OF_SOME)
def test_a_price_of_a_set_of_some_is_divided_by_them(each, text):
    assert read_advert(Advert(title="", body=text), WORDS).price.each == pytest.approx(each)


@pytest.mark.parametrize(("each", "text"), OF_ALL_OR_ONE)
def test_all_of_them_and_one_stay(each, text):
    told = read_advert(Advert(title="", body=text), WORDS).price.each
    assert told is None or told == pytest.approx(each)
