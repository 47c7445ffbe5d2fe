"""Volts that a connector, a cable, a battery, a panel or a whole system bears are no limit of an inverter's input."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body):
    found = read_advert(Advert(title="", body=body), WORDS)
    assert found.kind in {"inverter", "set"}
    return found


@pytest.mark.parametrize(
    "body",
    [
        "Kit: 2 panels 440 W, maximum system voltage 1500 V DC, micro inverter 800 W. £220",
        "Balkonkraftwerk: 2 Module 440 W, Maximalspannung der Anlage 1000 V, Wechselrichter 800 W. 200 Euro",
        "Balkonkraftwerk: 2 Module 440 W, max. 1500 V Systemspannung, Wechselrichter 800 W. 200 Euro",
        "Set: 2 panelen 440 W, max spanning van het systeem 1500 V, omvormer 800 W. 200 euro",
        "Kit: 2 panneaux 440 W, tension max système 1500 V, micro-onduleur 800 W. 200 €",
        "Kit: 2 placas 440 W, tensión máxima del sistema 1500 V, microinversor 800 W. 200 €",
        "Kit: 2 pannelli 440 W, tensione massima di sistema 1500 V, microinverter 800 W. 200 euro",
        "Zestaw: 2 panele 440 W, maks. napięcie układu 1500 V, mikroinwerter 800 W. 900 zł",
        "Kit: 2 painéis 440 W, tensão do sistema máx. 1500 V, microinversor 800 W. 200 €",
        "Sada: 2 panely 440 W, max. 1500 V napětí soustavy, mikroměnič 800 W. 5000 Kč",
        "Sæt: 2 paneler 440 W, systemets spænding maks. 1500 V, mikroinverter 800 W. 2000 kr.",
        "Micro inverter 800 W, connectors rated max 1000 V. £60",
        "Wechselrichter 800 W, Isolation geprüft bis max. 1000 V. 60 Euro",
        "Omvormer 800 W met solarkabel max 1500 V. 60 euro",
        "Micro-onduleur 800 W, test d'isolement max 1000 V. 60 €",
        "Microinversor 800 W, conectores MC4 máx. 1000 V. 60 €",
        "Inverter 800 W, batteria max 58 V. 60 euro",
        "Inwerter 800 W, akumulator maks. 58 V. 300 zł",
        "Měnič 800 W, baterie max. 58 V. 1500 Kč",
        "Kit: 2 panels 440 W (max voltage 39 V), micro inverter 800 W. £220",
        "Sæt: 2 paneler 440 W (maks. 1000 V), mikroinverter 800 W. 2000 kr.",
        "Microinversor 800 W\nTensión máx. del sistema (V): 1500\n60 €",
    ],
)
def test_volts_of_others_are_no_limit(body):
    assert "max_input_voltage_v" not in read(body).inverter


def test_amperes_of_a_battery_are_no_limit():
    found = read("Wechselrichter 800 W, Batterieanschluss max. 60 V, 25 A. 60 Euro")
    assert not {"max_input_voltage_v", "max_current_a", "max_short_circuit_current_a"} & found.inverter.keys()


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W, MC4 connectors max 1000 V, max input voltage 60 V. £60",
        "Mikrowechselrichter 800 W, 5 m Solarkabel (max. 1500 V), maximale Eingangsspannung 60 V. 70 Euro",
        "Omvormer 800 W, isolatietest max 1000 V, maximale ingangsspanning 60 V. 60 euro",
        "Kit: 2 panneaux 440 W (système max 1000 V), micro-onduleur 800 W tension max 60 V. 200 €",
        "Kit: 2 placas 440 W, tensión máxima del sistema 1500 V; inversor 800 W, tensión máx. de entrada 60 V. 200 €",
        "Kit: 2 pannelli 440 W (max 1000 V), microinverter 800 W tensione max 60 V. 200 euro",
        "Zestaw: 2 panele 440 W, maks. napięcie systemu 1000 V; inwerter 800 W, maks. napięcie wejściowe 60 V. 900 zł",
        "Microinversor 800 W, entrada máx. 60 V, cabo solar máx. 1500 V. Como novo, em mão. 60 €",
        "Mikroměnič 800 W, max. vstupní napětí 60 V, konektory max. 1000 V. 1500 Kč",
        "Mikroinverter 800 W, maks. indgangsspænding 60 V, solkabel maks. 1500 V. 600 kr.",
        "Wechselrichter 800 W mit MC4-Kabel, max. 60 V. 60 Euro",
        "Wechselrichter 800 W ohne Akku, max. 60 V. 60 Euro",
        "Balkonkraftwerk: 2 Module, Wechselrichter 800 W für Module bis 430 W (max. 60 V). 200 Euro",
        "Balcony system, 2 panels, micro inverter with max input of 60 V. £200",
        "Microinverter 800 W\nTensione massima del sistema (V): 1000\nTensione massima (V): 60\n60 euro",
    ],
)
def test_the_inverters_own_limit_is_read(body):
    assert read(body).inverter["max_input_voltage_v"] == 60


@pytest.mark.parametrize(
    ("body", "volts"),
    [
        ("String inverter 3 kW, max input voltage 600 V. £90", 600),
        ("Stringwechselrichter 3000 W, max. Eingangsspannung 1000 V. 90 Euro", 1000),
        ("Omvormer 3000 W, mppt 90-450 V, max 500 V. 90 euro", 500),
        ("Inverter di stringa 3 kW, tensione max ingresso 600 V. 90 euro", 600),
        ("Strenginverter 3 kW, maks. DC 600 V. 900 kr.", 600),
    ],
)
def test_more_than_a_plug_in_inverter_bears_is_told_of_an_input(body, volts):
    found = read(body)
    assert found.inverter["max_input_voltage_v"] == volts
    assert "string_inverter" in found.doubts


def test_more_than_a_plug_in_inverter_bears_is_not_guessed():
    assert "max_input_voltage_v" not in read("Micro inverter 800 W, max 1000 V. £60").inverter
