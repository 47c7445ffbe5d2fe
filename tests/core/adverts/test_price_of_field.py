"""Words on "the price" in a text tell for how many pieces the amount of the page's field is."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.growth import grows_within

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, price_text):
    return read_advert(Advert(title="", body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("body", "price_text", "each"),
    [
        ("4 Module 400 W, Preis pro Paar", "90 €", 45),
        ("4 Module 400 W. Preis versteht sich für jeweils zwei Module", "90 €", 45),
        ("6 panels 400 W, price is per pair", "£90", 45),
        ("6 solar panels 400 W. Price is for a pair of panels.", "£90", 45),
        ("4 panneaux 400 W, prix la paire", "90 €", 45),
        ("6 panelen 400 W, prijs is per paar", "€ 90", 45),
        ("2 placas 400 W, precio del par", "90 €", 45),
        ("6 pannelli 400 W, prezzo alla coppia", "90 €", 45),
        ("4 panele 400 W, cena za parę", "90 zł", 45),
        ("6 painéis 400 W, preço por par", "90 €", 45),
        ("4 panely 400 W, cena za pár", "90 Kč", 45),
        ("6 paneler 400 W. Prisen er for et par", "90 kr.", 45),
        ("8 panelen 400 W, prijs per set van 4", "€ 90", 22.5),
        ("8 paneli 400 W, cena za komplet 4 sztuk", "90 zł", 22.5),
    ],
)
def test_a_price_for_some_of_them(body, price_text, each):
    price = reading_of(body, price_text).price
    assert (price.basis, price.each) == ("lot", each)


@pytest.mark.parametrize(
    ("body", "price_text", "each"),
    [
        ("6 Module 400 W, Preis für alle, ein Paar Stecker gratis", "180 €", 30),
        ("6 Module 400 W, Preis pro Stück, auch ein Paar", "45 €", 45),
        ("6 panels 400 W, price each for 6 panels", "£45", 45),
        ("6 panels 400 W, price each, a pair of leads included", "£45", 45),
        ("6 panneaux 400 W, prix pour le tout", "180 €", 30),
    ],
)
def test_a_price_for_one_or_all_stays(body, price_text, each):
    assert reading_of(body, price_text).price.each == each


def test_time_grows_with_the_length():
    few, many = "4 Module, Preis gilt immer für je " * 60, "4 Module, Preis gilt immer für je " * 480
    assert grows_within(lambda: reading_of(few, "90 €"), lambda: reading_of(many, "90 €"), 12)
