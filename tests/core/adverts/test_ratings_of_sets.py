"""Whose ratings a set tells: its panels', its inverter's inputs', or those of what comes out."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
RATINGS = ("open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a")


def reading_of(language, body):
    found = read_advert(Advert(title="", body=body, language=language), WORDS)
    assert found.kind == "set"
    return found


def ratings_in(panel):
    return {name: panel[name] for name in RATINGS if name in panel}


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Balcony kit: 2 panels 430 W, inverter 800 W, 60 V max DC, short circuit 17 A per input, £310"),
        ("de", "Set: 2 Module 430 Wp, Wechselrichter 800 W, max. Kurzschlussstrom 17 A je Eingang, 310 €"),
        ("nl", "Set: 2 panelen 430 Wp, omvormer 800 W, kortsluitstroom max 17 A per ingang, 310 euro"),
        ("fr", "Kit : 2 panneaux 430 W, onduleur 800 W, courant de court-circuit max 17 A par entrée, 310 €"),
        ("es", "Kit: 2 paneles 430 W, inversor 800 W, corriente de cortocircuito máx. 17 A por entrada, 310 €"),
        ("it", "Kit: 2 pannelli 430 W, inverter 800 W, corrente di cortocircuito max 17 A per ingresso, 310 €"),
        ("pl", "Zestaw: 2 panele 430 W, inwerter 800 W, prąd zwarcia maks. 17 A na wejście, 1300 zł"),
        ("pt", "Kit: 2 painéis 430 W, inversor 800 W, corrente de curto-circuito máx. 17 A por entrada, 310 €"),
        ("cs", "Sada: 2 panely 430 W, měnič 800 W, zkratový proud max. 17 A na vstup, 7000 Kč"),
        ("da", "Sæt: 2 paneler 430 W, inverter 800 W, kortslutningsstrøm maks. 17 A pr. indgang, 2000 kr."),
    ],
)
def test_the_short_circuit_current_of_an_input_is_no_panels(language, body):
    found = reading_of(language, body)
    assert ratings_in(found.panel) == {}
    assert found.inverter["max_short_circuit_current_a"] == 17


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Kit: inverter 800 W and 2 panels 430 W, Voc 38.6 V, Isc 13.9 A, £310"),
        ("de", "Set: Wechselrichter 800 W und 2 Module 430 Wp, Leerlauf 38,6 V, Kurzschlussstrom 13,9 A, 310 €"),
        ("nl", "Set: omvormer 800 W en 2 panelen 430 Wp, Voc 38,6 V, kortsluitstroom 13,9 A, 310 euro"),
        ("fr", "Kit : onduleur 800 W et 2 panneaux 430 W, Vco 38,6 V, courant de court-circuit 13,9 A, 310 €"),
        ("es", "Kit: inversor 800 W y 2 paneles 430 W, Voc 38,6 V, corriente de cortocircuito 13,9 A, 310 €"),
        ("it", "Kit: inverter 800 W e 2 pannelli 430 W, Voc 38,6 V, corrente di cortocircuito 13,9 A, 310 €"),
        ("pl", "Zestaw: inwerter 800 W i 2 panele 430 W, Voc 38,6 V, prąd zwarcia 13,9 A, 1300 zł"),
        ("pt", "Kit: inversor 800 W e 2 painéis 430 W, Voc 38,6 V, corrente de curto-circuito 13,9 A, 310 €"),
        ("cs", "Sada: měnič 800 W a 2 panely 430 W, Voc 38,6 V, zkratový proud 13,9 A, 7000 Kč"),
        ("da", "Sæt: inverter 800 W og 2 paneler 430 W, Voc 38,6 V, kortslutningsstrøm 13,9 A, 2000 kr."),
    ],
)
def test_what_panels_have_stays_theirs_behind_an_inverter(language, body):
    found = reading_of(language, body)
    assert ratings_in(found.panel) == {"open_circuit_voltage_v": 38.6, "short_circuit_current_a": 13.9}
    assert "max_short_circuit_current_a" not in found.inverter


@pytest.mark.parametrize("sign", [".", ","])
def test_a_row_of_ratings_is_the_panels_even_where_an_inverter_is_named_last(sign):
    body = f"Kit, 2 panels 430 W, inverter 800 W{sign} Voc 38.6 V, Isc 13.9 A, Vmp 32.4 V, Imp 13.3 A. £310"
    assert tuple(reading_of("en", body).panel[name] for name in RATINGS) == (38.6, 13.9, 32.4, 13.3)


def test_a_greatest_current_behind_panels_is_theirs():
    found = reading_of("de", "Set: Wechselrichter 800 W und 2 Module 430 W, Kurzschlussstrom max. 13,9 A, 310 €")
    assert ratings_in(found.panel) == {"short_circuit_current_a": 13.9}


def test_a_lone_short_circuit_current_behind_an_inverter_is_left_out():
    found = reading_of("de", "Set: 2 Module 430 Wp, Wechselrichter 800 W, Kurzschlussstrom 17 A, 310 €")
    assert ratings_in(found.panel) == {}
    assert "max_short_circuit_current_a" not in found.inverter


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Kit: 2 panels 430 W, inverter 800 W, max. open circuit voltage 58 V, £310"),
        ("de", "Set: 2 Module 430 Wp, Wechselrichter 800 W, max. Leerlaufspannung 58 V, 310 €"),
        ("nl", "Set: 2 panelen 430 Wp, omvormer 800 W, max. openklemspanning 58 V, 310 euro"),
        ("fr", "Kit : 2 panneaux 430 W, onduleur 800 W, tension max à vide 58 V, 310 €"),
        ("es", "Kit: 2 paneles 430 W, inversor 800 W, tensión máxima en vacío 58 V, 310 €"),
        ("it", "Kit: 2 pannelli 430 W, inverter 800 W, tensione massima a vuoto 58 V, 310 €"),
        ("pl", "Zestaw: 2 panele 430 W, inwerter 800 W, maks. napięcie jałowe 58 V, 1300 zł"),
        ("pt", "Kit: 2 painéis 430 W, inversor 800 W, tensão máx. em vazio 58 V, 310 €"),
        ("cs", "Sada: 2 panely 430 W, měnič 800 W, max. napětí naprázdno 58 V, 7000 Kč"),
        ("da", "Sæt: 2 paneler 430 W, inverter 800 W, maks. tomgangsspænding 58 V, 2000 kr."),
    ],
)
def test_the_greatest_open_voltage_behind_an_inverter_is_its_limit(language, body):
    found = reading_of(language, body)
    assert ratings_in(found.panel) == {}
    assert found.inverter["max_input_voltage_v"] == 58


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Kit: 2 panels 430 W, inverter 800 W, MPP voltage 28 - 54 V, £310"),
        ("de", "Set: 2 Module 430 Wp, Wechselrichter 800 W, MPP-Spannung 28 - 54 V, 310 €"),
        ("de", "Set: 2 Module 430 Wp, Wechselrichter 800 W mit 2 MPP-Trackern (MPPT 28-54 V), 310 €"),
        ("nl", "Set: 2 panelen 430 Wp, omvormer 800 W, MPP-spanning 28-54 V, 310 euro"),
        ("fr", "Kit : 2 panneaux 430 W, onduleur 800 W, tension MPP 28 à 54 V, 310 €"),
        ("es", "Kit: 2 paneles 430 W, inversor 800 W, tensión MPP 28-54 V, 310 €"),
        ("it", "Kit: 2 pannelli 430 W, inverter 800 W, tensione MPP 28-54 V, 310 €"),
        ("pl", "Zestaw: 2 panele 430 W, inwerter 800 W, napięcie MPP 28-54 V, 1300 zł"),
        ("pt", "Kit: 2 painéis 430 W, inversor 800 W, tensão MPP 28-54 V, 310 €"),
        ("cs", "Sada: 2 panely 430 W, měnič 800 W, napětí MPP 28-54 V, 7000 Kč"),
        ("da", "Sæt: 2 paneler 430 W, inverter 800 W, MPP-spænding 28-54 V, 2000 kr."),
    ],
)
def test_a_range_of_volts_is_no_rating_of_a_panel(language, body):
    found = reading_of(language, body)
    assert ratings_in(found.panel) == {}
    assert (found.inverter["tracking_min_v"], found.inverter["tracking_max_v"]) == (28, 54)


def test_one_voltage_at_full_power_is_the_panels_beside_such_a_range():
    found = reading_of("en", "Kit: 2 panels 430 W, MPP voltage 32.4 V, inverter 800 W, MPPT 28-54 V, £310")
    assert found.panel["max_power_voltage_v"] == 32.4
    assert (found.inverter["tracking_min_v"], found.inverter["tracking_max_v"]) == (28, 54)


def test_a_narrow_range_of_open_volts_is_no_window():
    found = reading_of("en", "Kit: 2 panels 430 W, Voc 38-39 V, inverter 800 W, £310")
    assert "tracking_min_v" not in found.inverter
    assert "tracking_max_v" not in found.inverter
