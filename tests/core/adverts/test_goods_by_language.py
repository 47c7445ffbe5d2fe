"""Goods by the words of each language that are rarer: folding cases, converters, balcony sets; and hardly any words."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Solar suitcase 110 W with charge controller, Voc 21.9 V. £60, collection only.",
        "Solarkoffer 110 W mit Laderegler, Voc 21,9 V. 60 €, nur Abholung.",
        "Opvouwbare koffer zonnepaneel 110 W met laadregelaar, Voc 21,9 V. 60 euro, afhalen.",
        "Valise solaire 110 W avec régulateur, Voc 21,9 V. 60 €, main propre.",
        "Maleta solar 110 W con regulador, Voc 21,9 V. 60 €, recogida en mano.",
        "Valigetta solare 110 W con regolatore, Voc 21,9 V. 60 €, solo ritiro.",
        "Walizka solarna 110 W z regulatorem, Voc 21,9 V. 250 zł, odbiór osobisty.",
        "Mala solar 110 W com controlador, Voc 21,9 V. 60 €, levantar em mão.",
        "Solární kufřík 110 W s regulátorem, Voc 21,9 V. 1500 Kč, osobní odběr.",
        "Solcellekuffert 110 W med laderegulator, Voc 21,9 V. 400 kr, skal hentes.",
    ],
)
def test_a_folding_case_is_a_panel_for_camping(body):
    reading = reading_of(body)
    assert (reading.kind, reading.doubts) == ("panel", ("camping_12v",))
    assert (reading.panel["rated_power_w"], reading.panel["open_circuit_voltage_v"]) == (110, 21.9)


@pytest.mark.parametrize(
    "body",
    [
        "Pure sine converter 12 V to 230 V, 1200 W, for a motorhome. £70",
        "Sinuswandler 12 V auf 230 V, 1200 W, fürs Wohnmobil. 70 €",
        "Sinusomvormer 12v naar 230v, 1200 W, voor camper. 70 euro",
        "Convertisseur pur sinus 12v/230v, 1200 W, pour fourgon. 70 €",
        "Convertidor de onda pura 12 V a 230 V, 1200 W, para furgoneta. 70 €",
        "Convertitore onda pura 12 V a 230 V, 1200 W, per camper. 70 €",
        "Przetwornica czysty sinus 12 V na 230 V, 1200 W, do kampera. 300 zł",
        "Conversor de onda pura 12 V para 230 V, 1200 W, para autocaravana. 70 €",
        "Měnič napětí 12 V na 230 V, čistý sinus, 1200 W, do karavanu. 1500 Kč",
        "Omformer ren sinus 12 V til 230 V, 1200 W, til autocamper. 500 kr",
    ],
)
def test_a_converter_for_a_battery_is_an_inverter_off_the_grid(body):
    reading = reading_of(body)
    assert (reading.kind, reading.inverter) == ("inverter", {"ac_power_w": 1200})
    assert "off_grid_inverter" in reading.doubts


@pytest.mark.parametrize(
    "body",
    [
        "Microinverter 700 W. Operating 18-58 V, MPPT 30-46 V, max 60 V. £40",
        "Mikrowechselrichter 700 W. Arbeitsbereich 18-58 V, MPPT 30-46 V, max 60 V. 40 €",
        "Microinverter 700 W. Campo di lavoro 18-58 V, MPPT 30-46 V, max 60 V. 40 €",
        "Microinversor 700 W. Margen de trabajo 18-58 V, MPPT 30-46 V, máx 60 V. 40 €",
        "Mikroměnič 700 W. Provozní rozsah 18-58 V, MPPT 30-46 V, max 60 V. 900 Kč",
        "Micro inverter 700 W, 18-58 V, MPPT 30-46 V, max 60 V. £40",
    ],
)
def test_the_window_in_which_an_inverter_works_is_not_the_one_in_which_it_tracks(body):
    inverter = reading_of(body).inverter
    assert (inverter["tracking_min_v"], inverter["tracking_max_v"]) == (30, 46)


def test_a_name_behind_a_window_names_it():
    inverter = reading_of("Micro inverter 700 W, 22-48 V MPPT, max 60 V. £40").inverter
    assert (inverter["tracking_min_v"], inverter["tracking_max_v"]) == (22, 48)


@pytest.mark.parametrize(
    ("title", "body", "kind", "quantity"),
    [
        ("5 módulos 420 W", "", "panel", 5),
        ("5 panneaux 420 W", "", "panel", 5),
        ("Micro omvormer", "700VA", "inverter", 1),
        ("Photovoltaikplatten 5 Stk 240 W", "", "panel", 5),
        ("Balkonová fotovoltaika", "2x420W + měnič 800W", "set", 1),
        ("Instalacja balkonowa 2x420W + 800W 1100 zł", "", "set", 1),
        ("Stekkerset", "2x420 + 800 W, 280 euro", "set", 1),
    ],
)
def test_hardly_any_words_tell_the_goods(title, body, kind, quantity):
    reading = reading_of(body, title)
    assert (reading.kind, reading.quantity_available) == (kind, quantity)


def test_a_short_text_in_french_is_not_taken_for_another_language():
    reading = reading_of("Micro-onduleur 700 W, ne s'allume plus. 10 €")
    assert (reading.language, reading.defects) == ("fr", ("dead",))
