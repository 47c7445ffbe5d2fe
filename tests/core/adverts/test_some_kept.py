"""Of counted panels those that the seller keeps are not on offer, nor are those that stay up beside spare ones."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def pieces(body):
    return read_advert(Advert(title="", body=body), WORDS).quantity_available


@pytest.mark.parametrize(
    "body",
    [
        "12 Module 400 W, 4 behalte ich, je 30 Euro",
        "12 panels 400 W, I'm keeping four, £30 each",
        "12 panels 400 W, four of them I am keeping, £30 each",
        "12 panneaux 400 W, j'en garde 4, 30 € pièce",
        "12 panelen 400 W, ik houd er 4, 30 euro per stuk",
        "12 placas 400 W, me quedo con cuatro, 30 € cada una",
        "12 pannelli 400 W, ne tengo 4, 30 euro l'uno",
        "12 paneli 400 W, 4 zostawiam sobie, po 120 zł",
        "12 painéis 400 W, fico com 4, 30 € cada",
        "12 panelů 400 W, nechám si 4, po 600 Kč",
        "12 paneler 400 W, beholder 4 selv, 200 kr. stk",
    ],
)
def test_what_the_seller_keeps_is_not_on_offer(body):
    assert pieces(body) == 8


@pytest.mark.parametrize(
    ("body", "on_offer"),
    [
        ("Hatte 12 Module 400 W, zwei sind noch da, je 30 Euro", 2),
        ("12 Module 400 W, 2 sind noch vorhanden, je 30 Euro", 2),
        ("We have 12 on the roof, 4 spare panels 400 W for sale, £30 each", 4),
        ("Wir haben 12 auf dem Dach, 4 Module 400 W sind übrig und zu verkaufen, je 30 Euro", 4),
    ],
)
def test_what_is_still_there_or_spare_is_on_offer(body, on_offer):
    assert pieces(body) == on_offer


@pytest.mark.parametrize(
    "body",
    [
        "12 panels 400 W, £30 each, keep them dry",
        "Verkaufe 12 Module 400 W, die anderen 4 behalte ich, je 30 Euro",
        "Selling 12 panels 400 W, keeping the other four, £30 each",
        "12 panneaux 400 W, je garde les 4 autres, 30 € pièce",
        "12 panels 400 W, keeping my 2 inverters, £30 each",
        "12 panels 400 W for sale, £30 each, kept in a barn for 4 years",
        "12 paneli 400 W, po 120 zł, zostawiam 2 dni na decyzję",
        "12 paneler 400 W, 200 kr. stk, garantien beholder du i 4 år",
        "12 Module 400 W sind noch da, je 30 Euro, 2 Jahre alt",
    ],
)
def test_words_for_keeping_that_count_no_panels_take_none_away(body):
    assert pieces(body) == 12


def test_what_is_sold_of_more_stays_what_is_on_offer():
    assert pieces("Selling 8 of my 12 panels 400 W, keeping four, £30 each") == 8
