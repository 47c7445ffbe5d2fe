"""Figures at other temperatures or in other light are no ratings."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.growth import grows_within

WORDS = vocabulary_of(load_advert_words())


def panel_of(body):
    return dict(read_advert(Advert(title="", body=body), WORDS).panel)


@pytest.mark.parametrize(
    "body",
    [
        "Voc at -12C is 44 V, 400W panel £40",
        "Voc (-15 °C) 43.8 V, Isc (75 °C) 14.1 A. 400W panel £40",
        "Voc at minus ten degrees is 44 V, 400W panel £40",
        "At -10 °C: Voc 43 V, Isc 13 A. Panel 400 W £40",
        "Leerlaufspannung bei -12 °C: 43 V. Modul 400 W, 45 €",
        "Modul 400 W, Voc 43 V bei -10 °C, Isc 14,2 A bei 70°C, 45 €",
        "Leistung bei 70 °C: 330 W. Modul 400 Wp, 45 €",
        "Modul, bei 200 W/m² nur 80 W, sonst 400 Wp. 45 €",
        "Paneel 400 Wp, Voc bij -10 graden 43 V, 45 euro",
        "Voc à -12 °C : 43 V. Panneau 400 W, 45 €",
        "Panel solar 400 W, Voc 43 V a -10 ºC, 45 €",
        "Pannello 400 W, tensione a vuoto a -10°C 43 V, 45 €",
        "Panel 400 W, napięcie jałowe przy -10 st. C 43 V, 200 zł",
        "Painel 400 W, Voc a -10 graus: 43 V, 45 €",
        "Panel 400 W, napětí naprázdno při -10 °C 43 V, 900 Kč",
        "Panel 400 W, tomgangsspænding ved -10 grader 43 V, 300 kr",
    ],
)
def test_a_figure_at_another_condition_is_left_out(body):
    assert panel_of(body) == {"rated_power_w": 400}


@pytest.mark.parametrize(
    ("body", "voltage"),
    [
        ("Modul 400 W, Voc 37,2 V bei 25 °C, Isc 13 A, 45 €", 37.2),
        ("Panel 400 W. Temperature -40 °C to +85 °C, Voc 37.2 V, Isc 13 A, £40", 37.2),
        ("Panneau 400 W, température -40 à 85 °C, Voc 37,2 V, Isc 13 A, 40 €", 37.2),
        ("Panel 400 W, Voc 37.2 V (43 V at -10 °C), Isc 13 A, £40", 37.2),
        ("Modul 400 W, Voc 37,2 V, -0,27 %/°C, Isc 13 A (25°C), 45 €", 37.2),
    ],
)
def test_a_figure_at_the_rated_condition_stays(body, voltage):
    panel = panel_of(body)
    assert (panel["open_circuit_voltage_v"], panel["short_circuit_current_a"]) == (voltage, 13)


def test_many_temperatures_take_no_longer_than_their_number():
    few, many = ("Panel 400 W. " + "Voc at -10 °C 43 V, " * times for times in (100, 400))
    assert grows_within(lambda: panel_of(few), lambda: panel_of(many), 12)


@pytest.mark.parametrize(
    "told", ["37.0/39.5 (NOCT/STC)", "37.0/39.5 V (NOCT/STC)", "39.5/37.0 V (STC/NOCT)", "37.0 V / 39.5 V NOCT/STC."]
)
def test_of_a_pair_before_both_conditions_the_standard_one_is_read(told):
    assert panel_of(f"Panel 400 W £40, Voc {told}")["open_circuit_voltage_v"] == 39.5
