"""Amperes that are no limit of an input: of the output, of plugs, fuses and sockets; and the rated power of two."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def limits_of(language, body):
    found = read_advert(Advert(title="", body=body, language=language), WORDS)
    assert found.kind == "inverter"
    return found.inverter


OUTPUT = [
    ("en", "Inverter 800 W", "max. output current 3.6 A", "max. input current 14 A"),
    ("de", "Wechselrichter 800 W", "max. Ausgangsstrom 3,6 A", "max. Eingangsstrom 14 A"),
    ("nl", "Omvormer 800 W", "maximale uitgangsstroom 3,6 A", "max. ingangsstroom 14 A"),
    ("fr", "Onduleur 800 W", "courant de sortie max 3,6 A", "courant d'entrée max 14 A"),
    ("es", "Inversor 800 W", "corriente de salida máx. 3,6 A", "corriente máxima de entrada 14 A"),
    ("it", "Inverter 800 W", "corrente di uscita max 3,6 A", "corrente massima di ingresso 14 A"),
    ("pl", "Inwerter 800 W", "prąd wyjściowy maks. 3,6 A", "prąd wejściowy maks. 14 A"),
    ("pt", "Inversor 800 W", "corrente de saída máx. 3,6 A", "corrente de entrada máx. 14 A"),
    ("cs", "Měnič 800 W", "maximální výstupní proud 3,6 A", "maximální vstupní proud 14 A"),
    ("da", "Inverter 800 W", "maks. udgangsstrøm 3,6 A", "maks. indgangsstrøm 14 A"),
]


@pytest.mark.parametrize(("language", "goods", "comes_out", "goes_in"), OUTPUT)
def test_the_current_that_comes_out_is_no_limit(language, goods, comes_out, goes_in):
    assert "max_current_a" not in limits_of(language, f"{goods}, {comes_out}.")
    for body in (f"{goods}, {comes_out}, {goes_in}.", f"{goods}, {goes_in}, {comes_out}."):
        assert limits_of(language, body)["max_current_a"] == 14


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Inverter, output 600 VA, 2.7 A at 230 V."),
        ("de", "Wechselrichter 600 W, 2,7 A bei 230 V."),
        ("fr", "Onduleur 600 W, 2,7 A / 230 V."),
    ],
)
def test_amperes_before_the_volts_of_the_grid_are_no_limit(language, body):
    assert "max_current_a" not in limits_of(language, body)


def test_what_a_power_draws_from_the_grid_is_no_limit_unless_it_is_said_to_go_in():
    assert "max_current_a" not in limits_of("de", "Wechselrichter 800 W, Strom 3,48 A.")
    assert limits_of("de", "Wechselrichter 800 W, Strom 8,5 A.")["max_current_a"] == 8.5
    assert limits_of("de", "Wechselrichter 800 W, Eingangsstrom max. 3,48 A je Eingang.")["max_current_a"] == 3.48


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Inverter 800 W, 5 m lead with 13 A plug."),
        ("en", "Inverter 800 W, overcurrent protection 10 A."),
        ("en", "Inverter 800 W, five to a 20 A branch circuit."),
        ("de", "Wechselrichter 800 W, Stecker 16 A."),
        ("de", "Wechselrichter 800 W, mit 16-A-Sicherung."),
        ("de", "Wechselrichter 800 W, Steckverbinder (30 A)."),
        ("nl", "Omvormer 800 W, stekker 16 A, zekering 10 A."),
        ("fr", "Onduleur 800 W, prise 16 A, disjoncteur 10 A."),
        ("es", "Inversor 800 W, enchufe 16 A, magnetotérmico 10 A."),
        ("it", "Inverter 800 W, spina 16 A, magnetotermico 10 A."),
        ("pl", "Inwerter 800 W, wtyczka 16 A, bezpiecznik 10 A."),
        ("pt", "Inversor 800 W, ficha 16 A, disjuntor 10 A."),
        ("cs", "Měnič 800 W, zástrčka 16 A, jistič 10 A."),
        ("da", "Inverter 800 W, stik 16 A, sikring 10 A."),
    ],
)
def test_what_plugs_and_fuses_carry_is_no_limit(language, body):
    assert not {"max_current_a", "max_short_circuit_current_a"} & limits_of(language, body).keys()


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Inverter 800 W, 13 A plug, 14 A max per input."),
        ("de", "Wechselrichter 800 W, Sicherung 10 A, max. Eingangsstrom 14 A."),
        ("en", "Inverter 800 W with connectors max input current 14 A."),
        ("de", "Wechselrichter 800 W, max. 3,6 A Ausgangsstrom, max. 14 A Eingangsstrom."),
        ("fr", "Onduleur 800 W, courant max 14 A, prise 16 A."),
        ("da", "Inverter 800 W, maks. indgangsstrøm 14 A, stik 16 A."),
    ],
)
def test_a_limit_beside_such_a_current_is_read(language, body):
    assert limits_of(language, body)["max_current_a"] == 14


PEAK = [
    ("en", "Inverter", "maximum output 880 VA", "rated output 800 VA"),
    ("de", "Wechselrichter", "max. Ausgangsleistung 880 VA", "Nennleistung 800 VA"),
    ("nl", "Omvormer", "maximaal vermogen 880 VA", "nominaal vermogen 800 VA"),
    ("fr", "Onduleur", "puissance crête 880 VA", "puissance nominale 800 VA"),
    ("es", "Inversor", "potencia máxima 880 VA", "potencia nominal 800 VA"),
    ("it", "Inverter", "potenza massima 880 VA", "potenza nominale 800 VA"),
    ("pl", "Inwerter", "moc maksymalna 880 VA", "moc znamionowa 800 VA"),
    ("pt", "Inversor", "potência máxima 880 VA", "potência nominal 800 VA"),
    ("cs", "Měnič", "maximální výkon 880 VA", "jmenovitý výkon 800 VA"),
    ("da", "Inverter", "maks. effekt 880 VA", "nominel effekt 800 VA"),
]


@pytest.mark.parametrize(("language", "goods", "peak", "rated"), PEAK)
def test_the_rated_power_goes_before_a_peak(language, goods, peak, rated):
    for body in (f"{goods}, {peak}, {rated}.", f"{goods}, {rated}, {peak}."):
        assert limits_of(language, body)["ac_power_w"] == 800


def test_a_limit_below_the_rated_power_stays():
    assert limits_of("de", "Wechselrichter gedrosselt auf 600 W, Nennleistung 800 W.")["ac_power_w"] == 600
    assert limits_of("de", "Wechselrichter 800 W, für Module mit Nennleistung 440 W.")["ac_power_w"] == 800


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Inverter, set to 600 W, can be switched to 800 W in the app."),
        ("de", "Wechselrichter, auf 600 W eingestellt, kann per App auf 800 W umgestellt werden."),
        ("nl", "Omvormer, begrensd op 600 W, kan naar 800 W in de app."),
        ("fr", "Onduleur bridé à 600 W, peut passer à 800 W dans l'appli."),
        ("es", "Inversor limitado a 600 W, se puede pasar a 800 W con la app."),
        ("it", "Inverter impostato a 600 W, si può portare a 800 W con l'app."),
        ("pl", "Inwerter ustawiony na 600 W, można przełączyć na 800 W w aplikacji."),
        ("pt", "Inversor limitado a 600 W, pode passar a 800 W na app."),
        ("cs", "Měnič nastaven na 600 W, lze přepnout na 800 W v aplikaci."),
        ("da", "Inverter sat til 600 W, kan skiftes til 800 W i appen."),
    ],
)
def test_what_it_can_be_switched_to_is_its_power_with_a_doubt(language, body):
    found = read_advert(Advert(title="", body=body, language=language), WORDS)
    assert found.inverter["ac_power_w"] == 800
    assert "output_limited" in found.doubts
