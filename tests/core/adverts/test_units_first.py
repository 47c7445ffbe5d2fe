"""Ratings whose unit stands before the figure are read, and their letter is no word for a price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
RATINGS = {
    "open_circuit_voltage_v": 38.8,
    "short_circuit_current_a": 14.02,
    "max_power_voltage_v": 32.4,
    "max_power_current_a": 13.28,
}


def read(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 430 W\nVoc in V: 38.8\nIsc in A: 14.02\nVmp in V: 32.4\nImp in A: 13.28\n£55",
        "Solarmodul 430 W\nUoc in V: 38,8\nIsc in A: 14,02\nUmpp in V: 32,4\nImpp in A: 13,28\n55 Euro",
        "Solarmodul 430 W, Voc [V] 38,8, Isc [A] 14,02, Vmp [V] 32,4, Imp [A] 13,28. 55 Euro",
        "Zonnepaneel 430 W\nVoc (V) 38,8\nIsc (A) 14,02\nVmp (V) 32,4\nImp (A) 13,28\n55 euro",
        "Panneau 430 W\nVoc en V : 38,8\nIsc en A : 14,02\nVmp en V : 32,4\nImp en A : 13,28\n55 €",
        "Placa 430 W\nVoc (V): 38,8\nIsc (A): 14,02\nVmp (V): 32,4\nImp (A): 13,28\n55 €",
        "Pannello 430 W, Voc [V] 38,8, Isc [A] 14,02, Vmp [V] 32,4, Imp [A] 13,28. 55 euro",
        "Panel 430 W\nVoc w V: 38,8\nIsc w A: 14,02\nVmp w V: 32,4\nImp w A: 13,28\n55 zł",
        "Painel 430 W\nVoc em V: 38,8\nIsc em A: 14,02\nVmp em V: 32,4\nImp em A: 13,28\nEm mão. 55 €",
        "Panel 430 W\nVoc [V]: 38,8\nIsc [A]: 14,02\nVmp [V]: 32,4\nImp [A]: 13,28\n55 Kč",
        "Panel 430 W\nVoc i V: 38,8\nIsc i A: 14,02\nVmp i V: 32,4\nImp i A: 13,28\n55 kr.",
    ],
)
def test_units_stand_before_the_figures(body):
    found = read(body)
    assert RATINGS.items() <= found.panel.items()
    assert found.price.value == 55


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("4 Module 430 W, Isc 14 A, à 55 Euro", 55),
        ("Solarmodul 430 W Isc 14 A Voc 38,8 V a 55 Euro", 55),
        ("Placa 430 W, Isc: 14 A a 25 °C. 55 €", 55),
    ],
)
def test_a_letter_behind_a_figure_or_before_a_price_stays_what_it_is(body, each):
    found = read(body)
    assert found.panel["short_circuit_current_a"] == 14
    assert found.price.each == each


def test_limits_of_an_inverter_keep_their_units():
    body = "Inverter 800 W\nMax DC voltage (V): 60\nMax DC current (A): 14\nMax short circuit current (A): 18\n£60"
    found = read(body).inverter
    assert found["max_input_voltage_v"] == 60
    assert found["max_current_a"] == 14
    assert found["max_short_circuit_current_a"] == 18
