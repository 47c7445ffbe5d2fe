"""Which ampere of an inverter's plate is which, and which watts are only what goes in."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def limits_of(body):
    return read_advert(Advert(title="", body=body), WORDS).inverter


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 600 W, Imax 2 x 11.5 A, Isc max 2 x 14 A, £35",
        "Wechselrichter 600 W, 2 x 11,5 A Isc max 14 A, 35 €",
        "Omvormer 600 W, Imax 11,5 A, Isc max 14 A, 35 euro",
        "Micro-onduleur 600 W, Imax 11,5 A, Isc 14 A, 35 €",
        "Microinversor 600 W, Imax 11,5 A, Isc máx 14 A, 35 €",
        "Microinverter 600 W, Imax 2 x 11,5 A, Isc max 14 A, 35 €",
        "Mikroinwerter 600 W, Imax 11,5 A, Isc max 14 A, 150 zł",
        "Microinversor usado 600 W, 11,5 A Isc máx 14 A, 35 € com portes",
        "Mikroměnič 600 W, Imax 11,5 A, Isc max 14 A, 900 Kč",
        "Mikroinverter 600 W, 2 x 11,5 A Isc maks 14 A, 250 kr",
    ],
)
def test_the_current_before_the_name_of_another_one_is_no_short_circuit_current(body):
    found = limits_of(body)
    assert (found["max_current_a"], found["max_short_circuit_current_a"]) == (11.5, 14)


def test_a_name_behind_its_current_still_names_it():
    found = limits_of("Micro inverter 600 W, 11.5 A max, 14 A Isc, £35")
    assert found["max_short_circuit_current_a"] == 14


@pytest.mark.parametrize(
    "body",
    [
        "Inverter 800 W (230 V / 3.5 A), £40",
        "Wechselrichter 800 W, Ausgang 230 V 3,5 A, 40 €",
        "Onduleur 800 W, 230 V, 3,5 A en sortie, 40 €",
    ],
)
def test_amperes_beside_the_volts_of_the_grid_are_no_input(body):
    assert "max_current_a" not in limits_of(body)


@pytest.mark.parametrize(
    "body",
    [
        "Inverter, 2 x 450 W input, 700 W output, £40",
        "Wechselrichter 2x 450 W Eingang, 700 W Ausgang, 40 €",
        "Omvormer 2 x 450 W ingang, 700 W uitgang, 40 euro",
        "Onduleur 2 x 450 W entrée, 700 W sortie, 40 €",
        "Microinversor 2 x 450 W entrada, 700 W salida, 40 €",
        "Microinverter 2 x 450 W ingresso, 700 W uscita, 40 €",
        "Mikroinwerter 2 x 450 W wejście, 700 W wyjście, 150 zł",
        "Mikroměnič 2 x 450 W vstup, 700 W výstup, 900 Kč",
        "Mikroinverter 2 x 450 W indgang, 700 W udgang, 250 kr",
    ],
)
def test_watts_that_go_in_are_no_output(body):
    assert limits_of(body)["ac_power_w"] == 700
