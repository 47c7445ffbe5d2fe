"""Figures in tables: below the names of their ratings, or behind them with a sign between."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def panel_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS).panel


@pytest.mark.parametrize(
    "body",
    [
        "Panels for sale\nPmax | Voc | Isc | Vmp | Imp\n305 W | 40.3 V | 9.84 A | 33.0 V | 9.25 A\n£22 each",
        "| Typ | Pmax | Uoc | Isc | Umpp | Impp |\n|--|--|--|--|--|--|\n|K-6|305 W|40,3 V|9,84 A|33,0 V|9,25 A|",
        "Zonnepanelen\nType\tVermogen\tVoc\tIsc\tVmp\tImp\nNB60\t305 Wp\t40,3 V\t9,84 A\t33,0 V\t9,25 A\n22 per stuk",
        "Panneaux\nModèle;Pmax;Vco;Icc;Vmp;Imp\nTB60;305 W;40,3 V;9,84 A;33,0 V;9,25 A\n22 € pièce",
        "Placas\nPmax Voc Isc Vmp Imp\n305W 40,3V 9,84A 33,0V 9,25A\n22 € cada una",
        "Moduli\nPmax (W) | Voc (V) | Isc (A) | Vmp (V) | Imp (A)\n305 | 40,3 | 9,84 | 33,0 | 9,25\n22 € l'uno",
        "Panele\nMoc ; 305 W\nVoc ; 40,3 V\nIsc ; 9,84 A\nVmp ; 33,0 V\nImp ; 9,25 A\n90 zł za sztukę",
        "Painéis\n| Pmax | 305 | W |\n| Voc | 40,3 | V |\n| Isc | 9,84 | A |\n| Vmp | 33,0 | V |\n| Imp | 9,25 | A |",
        "Panely\nVýkon | 305 W\nVoc | 40,3 V\nIsc | 9,84 A\nVmp | 33,0 V\nImp | 9,25 A\n500 Kč za kus",
        "Paneler\nEffekt;305 W\nVoc;40,3 V\nIsc;9,84 A\nVmp;33,0 V\nImp;9,25 A\n170 kr stk",
    ],
)  # fmt: skip
def test_each_figure_of_a_table_has_the_name_of_its_column_or_row(body):
    found = panel_of(body)
    assert found["rated_power_w"] == 305
    assert found["open_circuit_voltage_v"] == 40.3
    assert found["short_circuit_current_a"] == 9.84
    assert found["max_power_voltage_v"] == 33.0
    assert found["max_power_current_a"] == 9.25


@pytest.mark.parametrize(
    "body",
    [
        # Two rows of values: which of the panels is sold?
        "Modules\nModel | Pmax | Voc | Isc\nA | 280 W | 38.4 V | 9.5 A\nB | 300 W | 39.8 V | 9.8 A\n£20 each",
        "Module\nTyp\tPmax\tUoc\tIsc\nA\t280 W\t38,4 V\t9,5 A\nB\t300 W\t39,8 V\t9,8 A\nje 20 €",
        # Fewer values than names.
        "Panneaux\nVoc | Isc | Vmp\n38,4 V | 9,5 A\n20 € pièce",
        # Volts of an open circuit are above those at full power.
        "Moduli\nVmp | Voc\n38,4 V | 31,2 V\n20 € l'uno",
    ],
)
def test_a_table_that_tells_of_several_panels_or_of_none_is_left_out(body):
    found = panel_of(body)
    assert not {"open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v"} & set(found)


def test_a_sentence_with_a_semicolon_is_no_row():
    reading = read_advert(Advert(title="Panels 250 W", body="Tested ; 8 left\nCollect ; £20 each"), WORDS)
    assert (reading.quantity_available, reading.price.value) == (8, 20)


@pytest.mark.parametrize(
    "body",
    [
        "Type | Power | Voc\nA | 240 W | 37.4 V\nB | 410 W | 37.0 V",
        "Typ | Leistung | Uoc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Soort | vermogen | Voc\noud | 240 W | 37,4 V\nnieuw | 410 W | 37,0 V",
        "Type | Puissance | Vco\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Tipo | Potencia | Voc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Tipo | Potenza | Voc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Typ | Moc | Voc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Tipo | Potência | Voc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Typ | Výkon | Voc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
        "Type | Effekt | Voc\nA | 240 W | 37,4 V\nB | 410 W | 37,0 V",
    ],
)
def test_of_two_panels_in_a_table_none_is_read(body):
    found = panel_of(body, "Solar panel")
    assert not {"rated_power_w", "open_circuit_voltage_v"} & set(found)


@pytest.mark.parametrize(
    "body",
    [
        "| | NOCT | STC |\n| Pmax | 305 W | 410 W |\n| Voc | 35.1 V | 37.2 V |\n| Isc | 11.0 A | 13.6 A |",
        "| | STC | NOCT |\n| Pmax | 410 W | 305 W |\n| Voc | 37.2 V | 35.1 V |\n| Isc | 13.6 A | 11.0 A |",
        "| | Pmax | Voc | Isc |\n| NOCT | 305 W | 35.1 V | 11.0 A |\n| STC | 410 W | 37.2 V | 13.6 A |",
    ],
)
def test_of_two_conditions_in_a_table_the_standard_ones_are_read(body):
    found = panel_of(body, "Solar panel")
    assert found["rated_power_w"] == 410
    assert found["open_circuit_voltage_v"] == 37.2
    assert found["short_circuit_current_a"] == 13.6


@pytest.mark.parametrize(
    "body",
    [
        "My readings:\nVoc | Isc\n34.8 V | 8.3 A\n£20",
        "Gebraucht, eigene Messung mit dem Multimeter:\nUoc | Ik\n34,8 V | 8,3 A\n20 €",
        "Gemeten:\nVoc | Isc\n34,8 V | 8,3 A\n20 euro",
        "Mesuré :\nVco | Icc\n34,8 V | 8,3 A\n20 €",
        "Voc | Isc\n34,8 V | 8,3 A\nmisurato al sole, 20 €",
    ],
)
def test_a_table_of_what_a_meter_read_is_no_table_of_ratings(body):
    found = panel_of(body, "Panel 400 W")
    assert not {"open_circuit_voltage_v", "short_circuit_current_a"} & set(found)
