"""What several have together is no limit of one input and no rating of one panel; what one of them has is."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
INVERTERS = {"en": "Micro inverter 800 W", "de": "Mikrowechselrichter 800 W", "nl": "Micro-omvormer 800 W",
             "fr": "Micro-onduleur 800 W", "es": "Microinversor 800 W", "it": "Microinverter 800 W",
             "pl": "Mikroinwerter 800 W", "pt": "Microinversor 800 W", "cs": "Mikroměnič 800 W",
             "da": "Mikroinverter 800 W"}  # fmt: skip


def inverter_of(language, body):
    found = read_advert(Advert(title=INVERTERS[language], body=body, language=language), WORDS)
    assert found.kind == "inverter"
    return found.inverter


def panel_of(language, title, body):
    found = read_advert(Advert(title=title, body=body, language=language), WORDS)
    assert found.kind == "panel"
    return found.panel


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Total short circuit current 25 A, max input voltage 60 V."),
        ("en", "Isc max 25 A for both inputs together. Max 60 V DC."),
        ("en", "Max. 60 V. Max total input current 25 A."),
        ("en", "With Y cables two panels per input, 25 A total. Max 60 V."),
        ("de", "Kurzschlussstrom gesamt max. 25 A, max. 60 V."),
        ("de", "Kurzschlussstrom 25 A (für beide Eingänge zusammen), max. 60 V."),
        ("nl", "Kortsluitstroom max. 25 A totaal, max. 60 V."),
        ("fr", "Courant de court-circuit total max 25 A. Tension max 60 V."),
        ("es", "Corriente de cortocircuito total máx. 25 A, tensión máx. 60 V."),
        ("it", "Corrente massima in ingresso 25 A complessivi, tensione max 60 V."),
        ("pl", "Prąd zwarcia łącznie max 25 A, max napięcie wejściowe 60 V."),
        ("pt", "Corrente de curto-circuito total máx. 25 A, tensão máx. 60 V."),
        ("cs", "Celkový zkratový proud max. 25 A, max. vstupní napětí 60 V."),
        ("da", "Kortslutningsstrøm maks. 25 A i alt, maks. 60 V."),
    ],
)
def test_amperes_of_all_inputs_are_no_limit_of_one(language, body):
    found = inverter_of(language, body)
    assert found["max_input_voltage_v"] == 60
    assert not {"max_current_a", "max_short_circuit_current_a"} & found.keys()


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Isc max 25 A (2 x 12.5 A), 16-60 V."),
        ("en", "Isc 25 A max total, 12.5 A per input."),
        ("de", "MPPT 16-60 V, Kurzschlussstrom max. 25 A gesamt (12,5 A je Eingang)."),
        ("nl", "Kortsluitstroom totaal max. 25 A, 12,5 A per ingang."),
        ("fr", "Courant de court-circuit max 25 A au total (12,5 A par entrée)."),
        ("es", "Corriente de cortocircuito máx. 25 A (2 x 12,5 A)."),
        ("it", "Corrente di cortocircuito max 25 A (12,5 A per ogni ingresso)."),
        ("pl", "Prąd zwarcia max 25 A (2 x 12,5 A)."),
        ("pt", "Corrente de curto-circuito máx. 25 A no total (12,5 A por entrada)."),
        ("cs", "Zkratový proud celkem 25 A (2x 12,5 A)."),
        ("da", "Kortslutningsstrøm maks. 25 A i alt, 12,5 A pr. indgang."),
    ],
)
def test_what_one_input_has_is_read_beside_what_all_have(language, body):
    found = inverter_of(language, body)
    assert found["max_short_circuit_current_a"] == 12.5
    assert "max_current_a" not in found


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max input 120 V with both panels in series, 60 V each channel."),
        ("en", "Max input voltage 120 V (60 V x 2)."),
        ("de", "Max. Eingangsspannung 120 V (2x60 V), Startspannung 22 V."),
        ("de", "Bei Reihenschaltung max. 120 V, einzeln max. 60 V."),
        ("nl", "Max. ingangsspanning 120 V in serie, per ingang 60 V."),
        ("fr", "Tension max 120 V (2 x 60 V)."),
        ("es", "Tensión máxima de entrada 120 V (2x60 V)."),
        ("it", "Tensione max 120 V in serie, 60 V per ogni ingresso."),
        ("pl", "Max. napięcie wejściowe 120 V (2x60 V)."),
        ("pt", "Tensão máx. 120 V em série, 60 V por entrada."),
        ("cs", "Max. vstupní napětí 120 V (2x60 V)."),
        ("da", "Maks. 120 V i serie, 60 V pr. indgang."),
    ],
)
def test_volts_of_inputs_in_series_are_those_of_one(language, body):
    assert inverter_of(language, body)["max_input_voltage_v"] == 60


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max 60 V, max input current 14 A, Isc max 18 A per input. Both together for £120 total."),
        ("en", "Max input current 14 A, total output 800 W. Isc 18 A."),
        ("de", "Max. Eingangsstrom 2x 14 A, Kurzschlussstrom max. 2x 18 A. Gesamtgewicht 3 kg."),
        ("de", "Eingangsstrom 14 A, Kurzschlussstrom 18 A je Eingang. Alles zusammen 70 €."),
        ("nl", "Max ingangsstroom 14 A, kortsluitstroom 18 A. Totaal 60 euro."),
        ("fr", "Courant max 14 A par entrée, Icc 18 A. Puissance totale 800 W."),
        ("es", "Corriente máx 14 A por entrada, Icc 18 A. Precio total 60 €."),
        ("it", "Corrente max 14 A, corto circuito 18 A. In totale due ingressi."),
        ("pl", "Prąd wejściowy max 14 A, prąd zwarcia 18 A. Razem 2 wejścia."),
        ("pt", "Corrente máx. 14 A, curto-circuito 18 A. No total 60 €."),
        ("cs", "Vstupní proud max. 14 A, zkratový proud 18 A. Celkem 2 vstupy."),
        ("da", "Indgangsstrøm maks. 14 A, kortslutningsstrøm 18 A. Pris i alt 450 kr."),
    ],
)
def test_a_total_of_something_else_takes_no_limit_away(language, body):
    found = inverter_of(language, body)
    assert (found["max_current_a"], found["max_short_circuit_current_a"]) == (14, 18)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max input voltage 60 V - do not wire panels in series."),
        ("en", "Max DC 60 V, MPPT start 30 V per input."),
        ("de", "Keine Reihenschaltung! Max. 60 V je Eingang."),
        ("de", "Max. Eingangsspannung 60 V, Start 20 V je Eingang."),
        ("fr", "Max 60 V par entrée, ne pas brancher en série."),
    ],
)
def test_volts_of_one_input_stay_where_no_series_is_wired(language, body):
    assert inverter_of(language, body)["max_input_voltage_v"] == 60


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Solar panels", "Two panels of 400 W, Voc 74 V in series."),
        ("de", "2 Solarmodule", "Je 400 W, Voc 74 V in Reihe."),
        ("fr", "2 panneaux solaires", "400 W chacun, Voc 74 V en série."),
        ("es", "2 placas solares", "400 W cada una, Voc 74 V en serie."),
    ],
)
def test_volts_of_panels_in_series_are_not_those_of_one(language, title, body):
    assert "open_circuit_voltage_v" not in panel_of(language, title, body)


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Solar panel", "Series 5 panel, Voc 37.4 V, Isc 13.9 A, ran in series with others."),
        ("en", "Solar panel", "54 cells in series, Voc 37.4 V, Isc 13.9 A."),
        ("de", "Solarmodul", "Voc 37,4 V (in Reihe 74,8 V), Isc 13,9 A."),
        ("de", "Solarmodule", "Gesamt 4 Module, Voc 37,4 V, Isc 13,9 A."),
    ],
)
def test_ratings_of_one_panel_stay_beside_such_words(language, title, body):
    found = panel_of(language, title, body)
    assert (found["open_circuit_voltage_v"], found["short_circuit_current_a"]) == (37.4, 13.9)


def test_a_set_keeps_its_panels_ratings_and_not_the_total_of_its_inverter():
    body = "2 panels 410 W, Voc 37.4 V, Isc 13.9 A and micro inverter 800 W, max input current 25 A total."
    found = read_advert(Advert(title="Balcony kit", body=body), WORDS)
    assert found.kind == "set"
    assert "max_current_a" not in found.inverter
    assert found.panel["short_circuit_current_a"] == 13.9


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Set of 2 inverters in parallel, 1200 W total, 600 W each."),
        ("de", "2 Wechselrichter parallel, 1200 W gesamt, je 600 W."),
        ("fr", "2 micro-onduleurs, 1200 W au total, 600 W chacun."),
        ("it", "2 microinverter, 1200 W in totale, 600 W ciascuno."),
    ],
)
def test_the_output_of_two_inverters_is_not_that_of_one(language, body):
    found = read_advert(Advert(title="", body=body, language=language), WORDS)
    assert found.inverter["ac_power_w"] == 600
