"""What both inputs bear together is no limit of one; what they are said to be is. Totals behind a point are totals."""

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


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max 60 V. Max DC current 28 A across both inputs."),
        ("en", "Max 60 V, max input current (both inputs) 28 A."),
        ("en", "Max 60 V. Sum of input currents max 28 A."),
        ("en", "Max 60 V, max 28 A for the pair of inputs."),
        ("de", "Max. 60 V, max. 28 A für beide Eingänge."),
        ("de", "Max. 60 V, max. Eingangsstrom 28 A (Summe)."),
        ("de", "Summenstrom beider Eingänge max. 28 A, 60 V max."),
        ("nl", "Max 60 V, max ingangsstroom 28 A voor beide ingangen."),
        ("fr", "Max 60 V, courant max 28 A pour les deux entrées."),
        ("fr", "Courant d'entrée max 28 A les deux entrées ensemble, max 60 V."),
        ("es", "Máx. 60 V, corriente máxima 28 A para ambas entradas."),
        ("it", "Max 60 V, corrente massima 28 A per entrambi gli ingressi."),
        ("pl", "Maks. 60 V, maks. prąd wejściowy 28 A na oba wejścia."),
        ("pt", "Máx. 60 V, corrente máxima 28 A para as duas entradas."),
        ("cs", "Max. 60 V, max. vstupní proud 28 A pro oba vstupy."),
        ("da", "Maks. 60 V, maks. strøm 28 A for de to indgange."),
    ],
)
def test_amperes_of_both_inputs_are_no_limit_of_one(language, body):
    found = inverter_of(language, body)
    assert found["max_input_voltage_v"] == 60
    assert not {"max_current_a", "max_short_circuit_current_a"} & found.keys()


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Two inputs of 14 A each, max 60 V."),
        ("en", "2 inputs, max 60 V, 14 A each."),
        ("en", "The two inputs take max 60 V, 14 A each."),
        ("en", "Max 60 V. Max input current 14 A per input, both inputs work."),
        ("de", "2 Eingänge, max. 60 V, max. Eingangsstrom 14 A. Beide Eingänge getestet."),
        ("de", "Max. 60 V, max. 14 A je Eingang, beide Eingänge gehen."),
        ("nl", "2 ingangen, max 60 V, max ingangsstroom 14 A per ingang."),
        ("fr", "2 entrées, max 60 V, courant max 14 A par entrée."),
        ("it", "2 ingressi, max 60 V, corrente massima 14 A per ingresso."),
        ("pl", "2 wejścia, maks. 60 V, maks. prąd wejściowy 14 A na wejście."),
        ("cs", "2 vstupy, max. 60 V, max. vstupní proud 14 A na vstup."),
        ("da", "2 indgange, maks. 60 V, maks. indgangsstrøm 14 A pr. indgang."),
    ],
)
def test_amperes_of_each_input_stay(language, body):
    assert inverter_of(language, body)["max_current_a"] == 14


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max DC input current 14 A per MPPT. Total 800 W out."),
        ("en", "max dc input current 14 a per mppt. all together £60."),
        ("en", "Max input 14 A Imax. Total 800 W out, 60 V max."),
        ("de", "Max. Eingangsstrom 14 A dc max. Insgesamt sehr gut."),
        ("de", "Max. Eingangsstrom 14 A pro MPPT. Zusammen mit Kabel."),
        ("nl", "Max ingangsstroom 14 A per MPPT. Samen met kabel."),
        ("fr", "Courant d'entrée max 14 A par MPPT. Au total 800 W."),
        ("es", "Corriente máxima de entrada 14 A por MPPT. En total 800 W."),
        ("it", "Corrente massima in ingresso 14 A per MPPT. In totale 800 W."),
        ("pl", "Maks. prąd wejściowy 14 A na MPPT. Razem z kablem."),
        ("pt", "Corrente máxima de entrada 14 A por MPPT. No total 800 W."),
        ("cs", "Max. vstupní proud 14 A na MPPT. Celkem 800 W."),
        ("da", "Maks. indgangsstrøm 14 A pr. MPPT. Samlet pris 400 kr."),
    ],
)
def test_a_total_in_the_next_sentence_takes_no_limit_away(language, body):
    assert inverter_of(language, body)["max_current_a"] == 14


@pytest.mark.parametrize("body", ["Gesamt max. 28 A, max. 60 V Eingang.", "Max. Eingang 60 V, 28 A max. gesamt."])
def test_a_point_behind_a_shortened_word_parts_no_total_from_its_figure(body):
    assert "max_current_a" not in inverter_of("de", body)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Both inputs 14 A, max 60 V."),
        ("en", "Max 60 V DC. Both inputs take max 14 A."),
        ("de", "Beide Eingänge 14 A, max. 60 V."),
        ("de", "Max. 60 V. Die beiden Eingänge vertragen max. 14 A."),
        ("nl", "Beide ingangen 14 A, max 60 V."),
        ("fr", "Max 60 V. Les deux entrées supportent 14 A max."),
        ("es", "Máx. 60 V. Las dos entradas admiten 14 A como máximo."),
        ("it", "Entrambi gli ingressi 14 A, max 60 V."),
        ("pl", "Oba wejścia 14 A, maks. 60 V."),
        ("pt", "Ambas as entradas 14 A, máx. 60 V."),
        ("cs", "Oba vstupy 14 A, max. 60 V."),
        ("da", "Begge indgange 14 A, maks. 60 V."),
    ],
)
def test_what_both_inputs_are_said_to_be_is_the_limit_of_each(language, body):
    assert inverter_of(language, body)["max_current_a"] == 14


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Both inputs 28 A, max 60 V."),
        ("en", "Both inputs share 16 A, max 60 V."),
        ("en", "Max 60 V, across both inputs 18 A."),
        ("de", "Strom beider Eingänge 16 A, max. 60 V."),
        ("de", "Beide Eingänge zusammen 14 A, max. 60 V."),
        ("nl", "Som van beide ingangen 18 A, max 60 V."),
        ("fr", "Les deux entrées 28 A, max 60 V."),
        ("es", "Para ambas entradas 18 A, máx. 60 V."),
        ("it", "Max 60 V, max 28 A per tutti e due gli ingressi."),
        ("pl", "Prąd obu wejść 16 A, maks. 60 V."),
        ("pt", "Soma das duas entradas 18 A, máx. 60 V."),
        ("cs", "Proud obou vstupů 16 A, max. 60 V."),
        ("da", "Begge indgange deler 16 A, maks. 60 V."),
    ],
)
def test_what_may_be_the_sum_of_both_inputs_is_no_limit(language, body):
    assert not {"max_current_a", "max_short_circuit_current_a"} & inverter_of(language, body).keys()


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max 60 V. 28 A max. Total."),
        ("de", "Max. 60 V. 28 A max. Gesamt."),
        ("de", "Max. 60 V. Eingangsstrom 28 A max. (Gesamt)"),
        ("nl", "Ingang 60 V max, ingangsstroom 28 A max. Samen."),
        ("fr", "Entrée 60 V max, courant 28 A max. Au total."),
        ("es", "Entrada 60 V, corriente 28 A máx. En total."),
        ("it", "Max 60 V. 28 A max. Totale."),
        ("pl", "Maks. 60 V. 28 A maks. Łącznie."),
        ("pt", "Entrada 60 V, corrente 28 A máx. No total."),
        ("cs", "Max. 60 V. 28 A max. Celkem."),
        ("da", "Maks. 60 V. 28 A maks. I alt."),
    ],
)
def test_a_word_for_a_total_that_stands_alone_behind_amperes_is_theirs(language, body):
    assert not {"max_current_a", "max_short_circuit_current_a"} & inverter_of(language, body).keys()


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Max 60 V, input 14 A max. Total price £60."),
        ("en", "Max 60 V, input 14 A. All good."),
        ("de", "Max. 60 V, Eingang 14 A max. Gesamt 800 W Ausgang."),
        ("nl", "Max 60 V, ingang 14 A max. Samen met kabel 60 euro."),
        ("fr", "Max 60 V, entrée 14 A max. Total 60 €."),
        ("it", "Max 60 V, ingresso 14 A max. Totale 60 €."),
        ("pl", "Maks. 60 V, wejście 14 A max. Razem z kablem 200 zł."),
        ("cs", "Max. 60 V, vstup 14 A max. Celkem 2 kusy."),
        ("da", "Maks. 60 V, indgang 14 A maks. I alt 2 stk."),
    ],
)
def test_a_total_of_something_else_behind_amperes_takes_no_limit_away(language, body):
    assert inverter_of(language, body)["max_current_a"] == 14


@pytest.mark.parametrize(
    "said",
    [
        "Both inputs take 16 A between the two.", "Both inputs max 16 A (8 A + 8 A).",
        "Both inputs: 16 A max, not each!",
        "Beide Eingänge miteinander max. 16 A.", "Beide Eingänge max. 16 A (8 A + 8 A).",
        "Beide ingangen bij elkaar max. 16 A.", "Les deux entrées réunies max 16 A.",
        "Ambas entradas máx. 16 A repartidos.", "Entrambi gli ingressi max 16 A, non ciascuno.",
        "Oba wejścia razem wzięte maks. 16 A.", "Ambas as entradas juntas máx. 16 A.", "Oba vstupy společně max. 16 A.",
        "Begge indgange under et maks. 16 A.",
    ],
)  # fmt: skip
def test_what_both_share_is_the_limit_of_none(said):
    found = read_advert(Advert(title="", body=f"Micro inverter 600 W. {said} Max 60 V."), WORDS).inverter
    assert found.get("max_current_a") in {None, 8}
