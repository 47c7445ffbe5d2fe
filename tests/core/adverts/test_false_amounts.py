"""Numbers of pieces, amperes and parts of goods that are easily taken for a price, and prices for some of them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title="", price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("body", "quantity", "each"),
    [
        ("3 Paletten à 30 Stück 400 Wp, unbenutzt, je Palette 1.350 €", 90, 45),
        ("62 zonnepanelen op 2 pallets à 31 panelen, 400 Wp. Prijs per pallet 1.240 euro.", 62, 40),
        ("2 palés con 30 módulos de 440 W cada uno. 1.500 € por palé", 60, 50),
        ("Tres palés de 20 paneles cada uno, 400 W. 900 € el palé", 60, 45),
        ("4 Kartons à 2 Module 400 W, 80 € je Karton", 8, 40),
        ("2 boxes of 4 panels 100 W, £120 per box", 8, 30),
        ("2 palety po 30 paneli 400 W, 6000 zł za paletę", 60, 200),
        ("2 bancali da 30 pannelli da 400 W, 1.500 € a bancale", 60, 50),
    ],
)
def test_the_price_of_a_pallet_or_box_is_divided_by_what_it_holds(body, quantity, each):
    reading = reading_of(body)
    assert (reading.quantity_available, reading.price.each) == (quantity, each)


@pytest.mark.parametrize(
    ("body", "price_text"),
    [
        ("20 Module 400 W. 8 Stück für 360 €", "360 €"),
        ("20 panels 400 W. 8 for £360", "£360"),
        ("20 panelen 400 Wp. 8 stuks voor 360 euro", "€ 360"),
        ("20 panneaux 400 W. 8 pièces pour 360 €", "360 €"),
        ("20 pannelli da 400 W. 8 pezzi a 360 €", "360 €"),
        ("20 paneler 400 W. 8 stk for 2400 kr", "2.400 kr"),
    ],
)
def test_what_some_of_them_cost_together_is_no_price_of_one(body, price_text):
    reading = reading_of(body, price_text=price_text)
    assert (reading.quantity_available, reading.price.each) == (20, None)


def test_what_one_alone_costs_is_the_price_of_one():
    assert reading_of("6 panels 300 W. £180 for all six, or £35 if you only want one.").price.each == 35
    assert reading_of("6 panels 300 W. £180 for all six, or £25 each if you take ten.").price.each == 30


def test_an_amount_for_so_many_with_nothing_behind_it_tells_how_many():
    reading = reading_of("Micro inverter 1 kW, boxed, £840 for twelve", "Inverter", "£840")
    assert (reading.quantity_available, reading.price.basis, reading.price.each) == (12, "lot", 70)
    assert reading_of("Micro inverter 1 kW, £90, £840 for twelve").quantity_available is None


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panels + micro inverter", "3 x 410W panels, £40 each. Also have 800W micro inverter, £60. Pick up."),
        ("Module und Wechselrichter", "3 Module 410 W je 40 €, dazu Wechselrichter 800 W 60 €, auch einzeln"),
        ("Panelen en omvormer", "3 panelen 410 Wp, 40 euro per stuk. Ook een omvormer 800 W te koop."),
    ],
)
def test_panels_priced_one_by_one_beside_an_inverter_are_no_set_for_that_price(title, body):
    assert reading_of(body, title).price.value is None


def test_sets_priced_one_by_one_stay_so():
    price = reading_of("Dvě sady, každá 1 panel 410 W, mikroměnič 400 W. 5 200 Kč za sadu", "Dvě sady").price
    assert (price.basis, price.each) == ("set", 5200)


def test_a_plural_that_is_a_singular_elsewhere_is_no_price_of_one():
    assert reading_of("3 Module 410 W", "Module", "150 €").price.each is None
    assert reading_of("Modul 410 W", "Modul", "150 €").price.each == 150


@pytest.mark.parametrize(
    ("body", "each", "weight"),
    [
        ("4 panels 300 W, 19½ kg each, £27½ each", 27.5, 19.5),
        ("4 panelen 300 Wp, 19¼ kg, € 27½ per stuk", 27.5, 19.25),
    ],
)
def test_halves_and_quarters_are_parts_of_their_figure(body, each, weight):
    reading = reading_of(body)
    assert (reading.price.each, reading.panel["weight_kg"]) == (each, weight)


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("schild: 410 w, 37,4 v leer, 13,9 a kurz. 55 euro fürs stück", 55),
        ("mærkat: 410 w, 37,4 v tom, 13,9 a. 300 kr stykket", 300),
        ("5 paneler, 13 a, 410 w, 300 kr stykket", 300),
    ],
)
def test_amperes_in_small_letters_are_no_price(body, each):
    assert reading_of(body, "5 moduler", None).price.each == each


def test_an_amount_with_a_letter_for_a_nought_is_none():
    assert reading_of("4 panels 400 W, £5о each").price.value is None
    assert reading_of("4 panels 400 W, £50each").price.each == 50


@pytest.mark.parametrize(
    ("body", "value"),
    [
        ("62 Module 400 W (2 Paletten à 31), 25 €", 25),
        ("62 Module 400 W (2 Paletten zu je 31), 25 €", 25),
        ("62 panels 400 W (2 pallets of 31), £25", 25),
        ("62 panelen 400 W (2 dozen à 31), 25 euro", 25),
        ("62 panneaux 400 W (2 palettes à 31), 25 €", 25),
        ("62 placas 400 W (2 palés a 31), 25 €", 25),
        ("62 pannelli 400 W (2 bancali a 31), 25 €", 25),
        ("62 panele 400 W (2 palety po 31), 100 zł", 100),
        ("62 painéis 400 W (2 paletes a 31), 25 €", 25),
        ("62 panelů 400 W (2 palety á 31), 600 Kč", 600),
        ("62 paneler 400 W (2 paller á 31), 200 kr", 200),
    ],
)
def test_what_stands_on_each_pallet_is_no_price(body, value):
    reading = reading_of(body)
    assert (reading.quantity_available, reading.price.value) == (62, value)


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("8 Solarmodule à 25", 25),
        ("12 panneaux 400 W à 31 €", 31),
        ("10 paneler 400 W à 200 kr", 200),
        ("20 pannelli 400 W a 31 €", 31),
    ],
)
def test_goods_at_so_much_keep_their_price(body, each):
    assert reading_of(body).price.each == each
