"""Pieces of each kind, panels left from a new roof, what comes a year, who raises an output, "in tutto"."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
STATES = (
    ("new", "Placa nueva 300 W, sobró del tejado nuevo, 40 €"),
    ("new", "Pannello nuovo 300 W, avanzato dal tetto nuovo, 40 €"),
    ("new", "Painel novo 300 W, sobrou do telhado novo, 40 €"),
    ("unused", "Module 300 W aus einer Überbestellung, je 40 Euro"),
    ("used", "Placa 300 W usada 5 años, sobró al cambiar el tejado, 40 €"),
    ("unknown", "Panel 300 W, daje 280 kWh rocznie, 150 zł"),
)
OUTPUTS = (
    (800, "Micro-onduleur, accepte 1000 W de panneaux, injecte 800 W. 60 €"),
    (800, "Micro inverter, takes 1200 W of panels, feeds in 800 W. £60"),
    (600, "Mikroměnič 600 W, technik ho umí přepnout na 800 W. 1500 Kč"),
)
ALL = (
    (40, "3 pannelli 300 W, 120 € in tutto"),
    (40, "4 pannelli 300 W, 160 € totali"),
    (40, "10 pannelli in tutto a 40 €"),
)


def _read(text):
    return read_advert(Advert(title="", body=text), WORDS)


@pytest.mark.parametrize(("condition", "text"), STATES)
def test_condition(condition, text):
    assert _read(text).condition == condition


@pytest.mark.parametrize(("watts", "text"), OUTPUTS)
def test_output(watts, text):
    assert _read(text).inverter["ac_power_w"] == watts


@pytest.mark.parametrize(("each", "text"), ALL)
def test_all_of_them(each, text):
    assert _read(text).price.each == pytest.approx(each)


def test_so_many_of_each_kind():
    table = "Two kinds of panel, 5 of each kind:\n| W | Voc |\n| 300 | 39.5 |\n| 410 | 37.2 |\n£40 each"
    assert _read(table).quantity_available == 10
    assert _read("8 panels 300 W, two types of connector, £40 each").quantity_available == 8


def test_free_sending_from_a_day_on():
    assert _read("2 painéis 300 W, 40 € cada. Portes grátis a partir de hoje.").shipping_cost == 0
    assert _read("2 painéis 300 W, 40 € cada. Portes grátis a partir de 150 €.").shipping_cost is None
