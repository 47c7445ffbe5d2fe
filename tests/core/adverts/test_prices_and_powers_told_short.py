"""Prices and powers told in few words: new and here, one or both, each and in total, thousands with a blank."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body, title="", price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    "text",
    [
        "New £600, here £300. Panel 400 W",
        "2 Module 400 W, Wechselrichter 600 W: Neu 600 €, hier 300 €",
        "Neuf 600 €, ici 300 €. Panneau 400 W",
        "Nieuw 600 euro, hier 300 euro. Zonnepaneel 400 W",
        "Nueva 600 €, aquí 300 €. Placa 400 W",
        "Nuovo 600 €, qui 300 €. Pannello 400 W",
        "Nowy 600 zł, u mnie 300 zł. Panel 400 W",
        "Novo 600 €, aqui 300 €. Painel 400 W",
        "Nový 600 Kč, zde 300 Kč. Panel 400 W",
        "Ny 600 kr., her 300 kr. Solpanel 400 W",
    ],
)
def test_what_it_costs_here_is_the_price(text):
    assert read(text).price.value == 300


@pytest.mark.parametrize("text", ["Neu 600 €, hier in Bonn 500 €, Modul 400 W", "New £600, here £550. Panel 400 W"])
def test_here_alone_is_no_lower_price(text):
    assert read(text).price.value == 600


@pytest.mark.parametrize(
    "text",
    [
        "2 panels 400 W. £60, or £100 for both panels",
        "2 panels 400 W. £60 or £100 for both",
        "2 Module 400 W. 60 €, oder 100 € für beide",
        "2 panelen 400 W. 60 euro of 100 euro voor beide",
        "2 panneaux 400 W. 60 €, ou 100 € pour les deux",
        "2 placas 400 W. 60 € o 100 € las dos",
        "2 pannelli 400 W. 60 € o 100 € per entrambi",
        "2 panele 400 W. 60 zł lub 100 zł za oba",
        "2 painéis 400 W. 60 € ou 100 € os dois",
        "2 panely 400 W. 60 Kč nebo 100 Kč za oba",
        "2 paneler 400 W. 60 kr. eller 100 kr. for begge",
        "Panel 400 W. £60, or £100 for both panels",
    ],
)
def test_one_before_both_is_the_price_of_one(text):
    found = read(text)
    assert (found.price.each, found.price.basis) == (60, "each")


def test_a_dearer_amount_before_all_is_not_that_of_one():
    found = read("3 Module 400 W. 160 €, oder 150 € für alle")
    assert (found.price.each, found.price.basis) == (50, "lot")


@pytest.mark.parametrize("field", [None, "£50", "£200"])
@pytest.mark.parametrize(
    "text",
    [
        "4 panels 400 W, £50 each, £200 total",
        "4 panels 400 W, £50 each, £200 in total",
        "4 panels 400 W, £200 total, £50 each",
    ],
)
def test_a_total_beside_the_price_of_each_is_no_price_of_one(text, field):
    found = read(text, price_text=field)
    assert found.price.each == 50
    assert "price_conflict" not in found.doubts


def test_another_price_of_each_is_held_to_the_page():
    found = read("4 panels 400 W, £50 each, £200 each if sent", price_text="£200")
    assert found.price.each == 200


def test_a_kit_with_counted_panels_and_an_inverter_is_a_set():
    body = (
        "Kit para varanda com dois painéis de 420 W e microinversor de 800 W, com suportes. "
        "Custou 600 € novo, vendo por 350 €."
    )
    for title in ("", "Kit solar varanda"):
        found = read(body, title)
        assert (found.kind, found.panel_count, found.price.value) == ("set", 2, 350)
        assert (found.panel["rated_power_w"], found.inverter["ac_power_w"]) == (420, 800)


@pytest.mark.parametrize(
    ("text", "watts"),
    [
        ("String inverter 2 400 W, MPPT 120-450 V. £200", 2400),
        ("Wechselrichter 2 400 W, 200 €", 2400),
        ("Omvormer 2 400 W, 200 euro", 2400),
        ("Onduleur string 2 400 W, MPPT 120-450 V. 200 €", 2400),
        ("Inversor 2 400 W, 200 €", 2400),
        ("Inverter 3 600 W con MPPT, 200 €", 3600),
        ("Inwerter 3 600 W, MPPT 120-500 V, 900 zł", 3600),
        ("Inversor 3 600 W, MPPT 120-500 V, 200 €", 3600),
        ("Měnič 2 400 W, 3000 Kč", 2400),
        ("Inverter 2 400 W, 900 kr.", 2400),
    ],
)
def test_the_power_of_one_inverter_may_have_a_blank_behind_the_thousands(text, watts):
    assert read(text).inverter["ac_power_w"] == watts


@pytest.mark.parametrize(
    "text",
    [
        "2 400 W Module. 200 €",
        "Wechselrichter 600 W, 2 400 W Module, 300 €",
        "Inverter 2 400 W panels £200",
        "Panneau et onduleur 2 400 W panneaux mono, 200 €",
        "Inverter 600 W with 2 400 W panels £200",
    ],
)
def test_a_number_before_the_power_of_panels_counts_them(text):
    assert read(text).panel["rated_power_w"] == 400


def test_a_number_before_the_power_of_inverters_counts_them():
    found = read("2 400 W inverters, £90 each")
    assert (found.quantity_available, found.inverter["ac_power_w"]) == (2, 400)


@pytest.mark.parametrize("cells", ["NOCT 45 C", "NOCT 45 °C", "NOCT 45C"])
def test_how_warm_cells_get_is_no_condition_of_the_ratings_behind_it(cells):
    found = read(f"Panel 400 W. {cells}. Voc 37.1 V, Isc 13.8 A.")
    assert found.panel["open_circuit_voltage_v"] == 37.1
    assert found.panel["short_circuit_current_a"] == 13.8


def test_ratings_at_such_a_condition_are_none():
    assert "open_circuit_voltage_v" not in read("Panel 400 W. NOCT: Voc 34.9 V, Isc 11.1 A.").panel
