"""Deposits on top, amounts of one that only fill a field, and new prices, watts and years beside the field's amount."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body, price_text=None):
    return read_advert(Advert(title="", body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W, £150 plus crate deposit £40.",
        "Solar panel 400 W, £150 plus refundable deposit £40.",
        "Solarmodul 400 W, 150 €, plus 40 € Palettenpfand für die Palette.",
        "Zonnepaneel 400 Wp. 150 € + 40 € borg voor de pallet.",
        "Zonnepaneel 400 Wp, 150 euro plus borg 40 euro.",
        "Panneau solaire 400 W, 150 € plus caution 40 €.",
        "Placa solar 400 W, 150 € más 40 € de depósito.",
        "Pannello solare 400 W. 150 € + 40 € deposito cauzionale.",
        "Panel fotowoltaiczny 400 W, 150 zł plus kaucja 40 zł.",
        "Painel solar 400 W, 150 € mais caução 40 €.",
        "Solární panel 400 W, 150 Kč + vratná záloha 40 Kč.",
        "Solcellepanel 400 W, 150 kr. plus depositum 40 kr.",
        "Solarmodul 400 W, 150 € inkl. Pfand",
        "Solarmodul 400 W, 150 €, ohne Pfand.",
        "Solar panel 400 W. £50 deposit, balance £100",
    ],
)
def test_a_deposit_on_top_is_no_price(body):
    assert read(body).price.value == 150


@pytest.mark.parametrize(
    ("body", "field", "price"),
    [
        ("Solar panel 400 W. Price is not 1 €, 50 €.", "1 €", 50),
        ("Solarmodul 400 W. Nicht 1 €, sondern 50 €.", "1 €", 50),
        ("Solar panel 400 W. The £1 is just to get it listed, I want £50.", "£1", 50),
        ("Pannello solare 400 W. 1 € è solo indicativo, prezzo 50 €.", "1 €", 50),
        ("Placa solar 400 W. No es 1 €, son 50 €.", "1 €", 50),
        ("Zonnepaneel 400 Wp. 1 euro staat er maar voor de vorm, prijs 50 euro.", "€ 1", 50),
        ("Panneau solaire 400 W. Le prix de 1 € est symbolique.", "1 €", None),
        ("Panel fotowoltaiczny 400 W. Cena 1 zł jest symboliczna.", "1 zł", None),
        ("Solární panel 400 W. Cena 1 Kč je jen symbolická.", "1 Kč", None),
        ("Painel solar 400 W. O preço de 1 € é simbólico.", "1 €", None),
        ("Solcellepanel 400 W. Prisen 1 kr. er symbolsk.", "1 kr.", None),
        ("Solarmodul 400 W, nur 1 € pro Stück, muss weg.", "1 €", 1),
        ("Solar panel 400 W for £1, first come first served.", "£1", 1),
    ],
)
def test_an_amount_of_one_that_only_fills_the_field_is_no_price(body, field, price):
    assert read(body, field).price.value == price


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ("Solar panel 400 W. £180 new.", "£50"),
        ("Solar panel 400 W. £180 in shops now.", "£50"),
        ("Solarmodul 400 W. 180 € im Baumarkt.", "50 €"),
        ("Zonnepaneel 400 Wp. 180 euro nieuw.", "€ 50"),
        ("Panneau solaire 400 W. 180 € neuf.", "50 €"),
        ("Placa solar 400 W. 180 € en tienda.", "50 €"),
        ("Pannello solare 400 W. 180 € nuovo.", "50 €"),
        ("Panel fotowoltaiczny 400 W. 700 zł nowy.", "50 zł"),
        ("Painel solar 400 W. 180 € novo.", "50 €"),
        ("Solární panel 400 W. 4500 Kč nový.", "50 Kč"),
        ("Solcellepanel 400 W. 1300 kr. som ny i byggemarkedet.", "50 kr."),
        ("Solarmodul 400 W, 400 pro Stück.", "50 €"),
        ("Solarmodul 400 W. 25 km bis Kassel, je 2019", "50 €"),
    ],
)
def test_what_is_no_amount_of_these_goods_contradicts_no_field(body, field):
    reading = read(body, field)
    assert (reading.price.value, "price_conflict" in reading.doubts) == (50, False)


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ("Solar panel 400 W.\n£90.", "£50"),
        ("Solarmodul 400 W. Preis 90 €.", "50 €"),
        ("Panneau solaire 400 W. Prix 90 €.", "50 €"),
    ],
)
def test_another_price_of_the_goods_does(body, field):
    assert "price_conflict" in read(body, field).doubts


def test_watts_that_several_pieces_make_the_fields_amount_of_are_their_price():
    assert read("4 Module 50 W, 50 pro Stück.", "200 €").price.each == 50
