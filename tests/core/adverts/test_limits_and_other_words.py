"""Limits written with an x behind the unit, prices that are reduced, islands and inputs in brackets."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading(title, body, language=None):
    return read_advert(Advert(title=title, body=body, language=language), WORDS)


def test_a_count_glued_to_the_unit_hides_no_limit():
    found = reading("Micro inverter 800W", "Max input current 11.5Ax2, max DC short circuit 15Ax2.").inverter
    assert (found["max_current_a"], found["max_short_circuit_current_a"]) == (11.5, 15)


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Solar panel 410 W", "Reduced to £60 each, was 80"),
        ("de", "Solarmodul 410 W", "Reduziert: statt 80 nur noch 60 Euro/Stk."),
        ("de", "Wechselrichter 800 W", "Preis reduziert auf 60 €"),
        ("fr", "Panneau solaire 410 W", "Prix réduit à 60 euros pièce"),
        ("it", "Microinverter 800 W", "Prezzo ridotto a 60 €"),
        ("es", "Placa solar 410 W", "Precio reducido a 60 € la unidad"),
    ],
)
def test_a_price_that_is_reduced_limits_no_output(language, title, body):
    assert "output_limited" not in reading(title, body, language).doubts


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Micro inverter 800 W", "Reduced to 600 W in firmware. £60"),
        ("de", "Wechselrichter 800 W", "Gedrosselt auf 600 W, Preis 60 €"),
        ("fr", "Micro-onduleur 800 W", "Bridé à 600 W, 60 €"),
    ],
)
def test_watts_that_are_reduced_do(language, title, body):
    found = reading(title, body, language)
    assert "output_limited" in found.doubts
    assert found.inverter["ac_power_w"] == 600


def test_an_island_on_a_battery_is_off_the_grid_and_an_island_to_fetch_from_is_not():
    assert "off_grid_inverter" in reading("Wechselrichter", "Batteriespannung 48V, 3000W Insel. 200 €").doubts
    assert "off_grid_inverter" not in reading("Wechselrichter 800 W", "Abholung auf der Insel. 60 €").doubts


def test_inputs_in_brackets_count_no_pieces_and_tell_the_language():
    found = reading("Microinversor", "Entrada 2x(16-60V, máx 14A, Icc 18A). Salida 230V 3,48A 800W. 90€")
    assert (found.kind, found.language, found.quantity_available) == ("inverter", "es", 1)
    limits = found.inverter
    assert (limits["max_current_a"], limits["max_short_circuit_current_a"], limits["ac_power_w"]) == (14, 18, 800)
