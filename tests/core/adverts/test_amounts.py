"""Which amount is the price, in which currency; and where none can be told, none is."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body, title="", price_text=None, language=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text, language=language), WORDS)


@pytest.mark.parametrize(
    ("body", "currency"),
    [
        ("Sælger fire brugte solpaneler på 300 W, 200 kr. stykket.", "DKK"),
        ("Sælger fire brugte solpaneler på 300 W, 200 DKK stykket.", "DKK"),
        ("Säljer fyra begagnade solpaneler, 300 W, 200 kr styck, och de fungerar.", None),
        ("Selger fire brukte solpaneler på 300 W, 200 kr pr stykk, hentes i Bergen.", None),
        ("Four used solar panels, 300 W, 200 kr each.", None),
    ],
)
def test_crowns_are_danish_only_where_the_text_is(body, currency):
    price = read(body).price
    assert (price.each or price.value) == 200
    assert price.currency == currency


@pytest.mark.parametrize(
    "body",
    [
        "Used solar panels: 3 x 410 W at £45 each, 5 x 300 W at £20 each.",
        "Gebrauchte Solarmodule: 3 Stück 410 W je 45 €, 5 Stück 300 W je 20 €.",
        "Gebruikte zonnepanelen: 3 stuks 410 W 45 euro per stuk, 5 stuks 300 W 20 euro per stuk.",
        "Panneaux d'occasion : 3 de 410 W à 45 € pièce, 5 de 300 W à 20 € pièce.",
    ],
)
def test_panels_of_several_powers_with_a_price_each_have_no_one_price_and_no_one_power(body):
    found = read(body)
    assert found.kind == "panel"
    assert found.price.value is None
    assert "rated_power_w" not in found.panel


@pytest.mark.parametrize(
    ("body", "pieces", "value", "each"),
    [
        ("2 Paletten auf Lager, je Palette 30 Module 400 W, neu. 1.500 € je Palette.", 60, 1500, 50),
        ("Two pallets in stock, 30 panels per pallet, 400 W, new. £1,500 per pallet.", 60, 1500, 50),
        ("2 pallets op voorraad, 30 panelen per pallet, 400 W, nieuw. 1.500 euro per pallet.", 60, 1500, 50),
    ],
)
def test_the_price_of_a_pallet_is_divided_by_what_stands_on_one(body, pieces, value, each):
    found = read(body)
    assert (found.quantity_available, found.price.value, found.price.each) == (pieces, value, each)


@pytest.mark.parametrize(
    ("body", "cost"),
    [
        ("Vier Module 400 W, 40 € je Stück. Spedition gegen Aufpreis (90 €).", 90),
        ("Four panels 400 W, £40 each, plus £12 postage.", 12),
        ("Cuatro placas 400 W, 40 € cada una, más 12 de envío.", 12),
        ("Quattro pannelli 400 W, 40 € l'uno, più 12 di spedizione.", 12),
        ("Vier panelen 400 W, € 40,- per stuk, verzenden kan voor 12,50.", 12.5),
    ],
)
def test_what_sending_costs_is_no_price(body, cost):
    found = read(body)
    assert (found.price.each, found.shipping_cost) == (40, cost)


def test_a_free_lift_gives_nothing_away():
    found = read("Sprzedam kilkanaście paneli 285 W. Cena do uzgodnienia, do 15 km podrzucę gratis.")
    assert (found.price.value, found.shipping_cost) == (None, 0)


@pytest.mark.parametrize(
    ("body", "watts"),
    [
        ("Five panels of three hundred and ten watts, £20 each.", 310),
        ("Five panels, two hundred watts, £20 each.", 200),
    ],
)
def test_number_words_make_one_number(body, watts):
    assert read(body).panel["rated_power_w"] == watts


@pytest.mark.parametrize(
    ("size", "sides"),
    [
        ("2 278 x 1 134 x 35 mm", (2278, 1134)),
        ("1,956 m x 0,992 m", (1956, 992)),
        ('65.0" x 39.1"', (1651, 993)),
        ("5ft 4 by 3ft 3", (1626, 991)),
        ("172,2 x 113,4 cm", (1722, 1134)),
    ],
)
def test_sides_are_read_however_they_are_written(size, sides):
    panel = read(f"Used solar panel 400 W, {size}, £40").panel
    assert (round(panel["length_mm"]), round(panel["width_mm"])) == sides


def test_a_pair_in_german_is_two_and_some_are_no_number():
    assert read("Ein Paar Solarmodule 300 W, 20 € je Stück").quantity_available == 2
    assert read("Noch ein paar Solarmodule 300 W, 20 € je Stück").quantity_available is None


@pytest.mark.parametrize(
    ("body", "condition"),
    [
        ("Solarmodul 300 W, 40 €. War ein Jahr am Balkon.", "used"),
        ("Solarmodul 300 W, 40 €. Hing zwei Sommer auf dem Dach.", "used"),
        ("Solarmodul 300 W, 40 €. Hat 25 Jahre Leistungsgarantie auf dem Dach.", "unknown"),
        ("Panel 300 W, £40. Served three years on a roof.", "used"),
        ("Panel 300 W, £40. Family firm since 1998.", "unknown"),
        ("Solarmodul 300 W, 40 €. Waren am Gartenhaus montiert.", "used"),
        ("Solarmodul 300 W, 40 €. Ideal auf dem Dach oder am Balkon.", "unknown"),
        ("Panel 300 W, £40. Never was on a roof.", "unknown"),
        ("Module vom Dachumbau übrig, nie montiert, 300 W, 40 €", "unused"),
    ],
)
def test_what_was_up_for_a_time_is_used_and_what_never_was_is_not(body, condition):
    assert read(body).condition == condition


@pytest.mark.parametrize(
    ("body", "condition"),
    [
        ("Acht Module 245 W, 5 davon mit Glasbruch, zusammen 30 €", "damaged"),
        ("Eight panels 245 W, two of them have cracked glass, £30 the lot", "unknown"),
    ],
)
def test_goods_are_damaged_where_half_of_them_are(body, condition):
    found = read(body)
    assert found.condition == condition
    assert "part_damaged" in found.doubts
