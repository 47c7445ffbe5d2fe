"""Prices of all together and of a piece that are written short: "160 for all", "25e a piece", "1.2k"."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def price_of(title, body, asked=None):
    return read_advert(Advert(title=title, body=body, price_text=asked), WORDS).price


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("6 panels 260 W", "150 for all, collect in Ludlow"),
        ("6 Module 260 W", "alle zusammen 150, Abholung"),
        ("6 Module 260 W", "alle zus. 150,- Abholung"),
        ("6 zonnepanelen 260 Wp", "samen 150, afhalen"),
        ("6 panneaux 260 W", "150 le tout. À retirer"),
        ("6 placas 260 W", "150 todas. Recoger en Gijón"),
        ("6 pannelli 260 W", "150 in blocco, ritiro a Lodi"),
        ("6 paneli 260 W", "razem 150. Odbiór"),
        ("6 painéis 260 W", "150 tudo. Levantar em Braga"),
        ("6 panelů 260 W", "dohromady 150. Odběr"),
        ("6 paneler 260 W", "samlet 150. Afhentes"),
        ("6 panneaux 260 W", "les six 150e"),
        ("6 zonnepanelen 260 Wp", "150e voor alles"),
    ],
)
def test_a_bare_figure_beside_a_word_for_all_is_the_price_of_the_lot(title, body):
    price = price_of(title, body)
    assert (price.value, price.basis, price.each) == (150, "lot", 25)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("6 panels 260 W", "all together 1560"),  # watts
        ("6 Module", "alle 250, zusammen 1500"),
        ("6 Module 260 W", "alle 2019"),
        ("6 zonnepanelen 260 Wp", "samen 12 jaar garantie, alle 6"),
        ("30 panneaux 260 W", "le tout 30"),
        ("26 paneli 260 W", "razem 26"),
        ("6 placas 260 W", "todas 150 x 100"),
    ],
)
def test_watts_years_pieces_and_sizes_are_no_price_of_the_lot(title, body):
    assert price_of(title, body).value is None


def test_a_price_field_that_tells_another_price_is_not_contradicted():
    assert price_of("6 panels 260 W", "150 for all", "£30").value == 30
    assert price_of("6 panels 260 W", "150 for all", "£150").basis == "lot"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("8 panels 250 W", "25e a piece, pickup"),
        ("8 panels 250 W", "25e piece"),
        ("8 Module 250 W", "25e pro Stück"),
        ("8 zonnepanelen 250 Wp", "25e per stuk"),
        ("8 panneaux 250 W", "25e/pièce"),
        ("8 placas 250 W", "25e cada una"),
        ("8 pannelli 250 W", "25e l'uno"),
        ("8 painéis 250 W", "25e cada"),
    ],
)
def test_a_glued_e_is_the_euro_beside_a_word_for_a_piece(title, body):
    price = price_of(title, body)
    assert (price.value, price.currency, price.basis) == (25, "EUR", "each")


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("8 zonnepanelen 250 Wp", "liggen op de 12e verdieping"),
        ("8 panneaux 250 W", "à retirer dans le 15e"),
        ("8 panneaux 250 W", "stockés dans la 5e pièce"),
        ("8 panels 250 W", "good for 10k cycles, 5k people saw them"),
        ("8 paneli 250 W", "ponad 3 tys. sztuk sprzedanych"),
        ("8 Module 250 W", "2 Tsd. Stück verbaut"),
    ],
)
def test_floors_districts_and_thousands_of_pieces_are_no_price(title, body):
    assert price_of(title, body).value is None


@pytest.mark.parametrize(
    ("title", "body", "currency"),
    [
        ("40 panels 270 W", "1.2k the lot", None),
        ("40 panels 270 W", "£1.2k the lot", "GBP"),
        ("40 Module 270 W", "1,2 Tsd. € für alle", "EUR"),
        ("40 paneli 270 W", "1,2 tys. zł za całość", "PLN"),
        ("40 panelů 270 W", "1,2 tis. Kč dohromady", "CZK"),
    ],
)
def test_thousands_are_money_beside_a_currency_or_a_word_for_all(title, body, currency):
    price = price_of(title, body)
    assert (price.value, price.currency, price.basis, price.each) == (1200, currency, "lot", 30)


def test_a_word_for_a_piece_may_mean_loose_too():
    assert price_of("2 panelen 380 Wp", "samen 70, los 40").each == 40
    assert price_of("2 panelen 380 Wp", "samen 70, los 3 schroeven").each == 35
