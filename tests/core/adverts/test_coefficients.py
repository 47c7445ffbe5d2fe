"""Coefficients in a row behind one heading: each goes with the name before it, and none is an ampere or a volt."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
VOC, POWER, ISC = "voc_coefficient_pct_per_k", "power_coefficient_pct_per_k", "short_circuit_current_a"


def panel_of(language, title, body):
    return read_advert(Advert(title=title, body=body, language=language), WORDS).panel


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Solar panel 400 W", "Temp coeff: Isc 0.05, Voc -0.27, Pmax -0.34 %/C."),
        ("de", "Solarmodul 400 W", "Temperaturkoeffizient Isc 0,05 Voc -0,27 Pmax -0,34 %/K."),
        ("nl", "Zonnepaneel 400 W", "Temperatuurcoëfficiënt Isc 0,05 / Voc -0,27 / Pmax -0,34 %/°C."),
        ("fr", "Panneau solaire 400 W", "Coefficient de température Icc 0,05 %/°C Vco -0,27 %/°C Pmax -0,34 %/°C."),
        ("es", "Placa solar 400 W", "Coeficiente de temperatura: Isc 0,05, Voc -0,27, Pmax -0,34 %/ºC."),
        ("it", "Pannello solare 400 W", "Coefficiente di temperatura Isc 0,05 Voc -0,27 Pmax -0,34 %/°C."),
        ("pl", "Panel słoneczny 400 W", "Współczynnik temperaturowy Isc 0,05 %/°C Voc -0,27 %/°C Pmax -0,34 %/°C."),
        ("pt", "Painel solar 400 W", "Coeficiente de temperatura Isc 0,05, Voc -0,27, Pmax -0,34 %/°C."),
        ("cs", "Solární panel 400 W", "Teplotní koeficient Isc 0,05 %/°C Voc -0,27 %/°C Pmax -0,34 %/°C."),
        ("da", "Solpanel 400 W", "Temperaturkoefficient Isc 0,05 Voc -0,27 Pmax -0,34 %/°C."),
    ],
)
def test_a_row_of_coefficients_is_read_by_the_names_before_them(language, title, body):
    found = panel_of(language, title, body)
    assert (found[VOC], found[POWER]) == (-0.27, -0.34)
    assert not {ISC, "open_circuit_voltage_v"} & found.keys()


def test_without_any_unit_they_are_nothing():
    found = panel_of("de", "Solarmodul 400 W", "Tk Isc 0,05, Tk Voc -0,27.")
    assert not {ISC, VOC, "open_circuit_voltage_v"} & found.keys()


@pytest.mark.parametrize(
    "body",
    [
        "Voc 37.4 V, Isc 13.9 A, temp coeff Pmax -0.34 %/K, Voc -0.27 %/K.",
        "-0.27 %/K Voc, -0.34 %/K Pmax, Isc 13.9 A, Voc 37.4 V.",
        "Temp coeff Pmax -0.34 %/K, Voc -0.27 %/K. Isc 13.9, Voc 37.4.",
    ],
)
def test_ratings_beside_coefficients_stay(body):
    found = panel_of("en", "Solar panel 400 W", body)
    assert (found[VOC], found[POWER], found[ISC], found["open_circuit_voltage_v"]) == (-0.27, -0.34, 13.9, 37.4)


def test_amperes_of_a_small_panel_are_a_rating():
    assert panel_of("en", "Flexible panel 10 W", "Voc 21 V, Isc 0.65 A, temp coeff Voc -0.3 %/C.")[ISC] == 0.65
