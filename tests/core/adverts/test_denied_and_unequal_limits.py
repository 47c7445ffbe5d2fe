"""A limit that is denied is none, the lower of two is taken, what hung on an inverter is no limit."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def limits(body):
    reading = read_advert(Advert(title="", body=body), WORDS)
    told = reading.inverter.get
    return (
        told("max_input_voltage_v"), told("max_current_a"), told("max_short_circuit_current_a"),
        "rating_conflict" in reading.doubts,
    )  # fmt: skip


def panel(body, name):
    reading = read_advert(Advert(title="", body=body), WORDS)
    return reading.panel.get(name), "rating_conflict" in reading.doubts


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("Wechselrichter 800 W, max. Eingangsstrom nicht 18 A, sondern 14 A. 60 Euro", (None, 14, None, False)),
        ("Wechselrichter 800 W, Kurzschlussstrom nicht 22 A, sondern 16 A. 60 Euro", (None, None, 16, False)),
        ("Inverter 800 W, max input voltage is not 60 V but 55 V. £60", (55, None, None, False)),
        ("Inverter 800 W, max 55 V instead of 60 V. £60", (55, None, None, False)),
        ("Omvormer 800 W, max ingangsstroom geen 18 A maar 14 A. 60 euro", (None, 14, None, False)),
        ("Micro-onduleur 800 W, tension max pas 60 V mais 55 V. 60 €", (55, None, None, False)),
        ("Microinversor 800 W, corriente máxima de entrada no 18 A sino 14 A. 60 €", (None, 14, None, False)),
        ("Microinverter 800 W, tensione massima non 60 V ma 55 V. 60 euro", (55, None, None, False)),
        ("Mikroinwerter 800 W, maks. prąd wejściowy nie 18 A lecz 14 A. 300 zł", (None, 14, None, False)),
        ("Microinversor 800 W, tensão máxima não 60 V mas 55 V. 60 €", (55, None, None, False)),
        ("Mikroměnič 800 W, max. vstupní proud ne 18 A, ale 14 A. 1500 Kč", (None, 14, None, False)),
        ("Mikroinverter 800 W, maks. strøm 14 A, ikke 18 A, maks. 60 V. 600 kr.", (60, 14, None, False)),
    ],
)
def test_what_is_told_instead_of_a_denied_limit_is_taken(body, told):
    assert limits(body) == told


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("Inverter 800 W, not more than 60 V, not over 14 A. £60", (60, 14)),
        ("Wechselrichter 800 W, nicht über 60 V, nicht mehr als 14 A je Eingang. 60 Euro", (60, 14)),
        ("Onduleur 800 W, pas plus de 60 V, 14 A max par entrée. 60 €", (60, 14)),
        ("Microinverter 800 W, non oltre 60 V, max 14 A per ingresso. 60 euro", (60, 14)),
        ("Inverter 800 W, max DC 60 V, not 12 V. Max input 14 A. £60", (60, 14)),
        ("Inverter 800 W, not 12 V, max 60 V, not more than 14 A per input £60", (60, 14)),
    ],
)
def test_a_no_that_sets_a_limit_denies_none(body, told):
    assert limits(body) == (*told, None, False)


@pytest.mark.parametrize(
    "body",
    [
        "Inverter 800 W, the web says max 65 V, the label says max 55 V. £60",
        "Inverter 800 W, label says max 55 V, seller said max 65 V. £60",
        "Wechselrichter 800 W, im Internet max. 65 V, auf dem Typenschild max. 55 V. 60 Euro",
        "Omvormer 800 W, online staat max 65 V, op het typeplaatje max 55 V. 60 euro",
        "Micro-onduleur 800 W, 65 V max selon internet, 55 V max selon l'étiquette. 60 €",
        "Microinversor 800 W, en internet pone máx. 65 V, en la etiqueta máx. 55 V. 60 €",
        "Microinverter 800 W, online max 65 V, sull'etichetta max 55 V. 60 euro",
        "Mikroinwerter 800 W, w internecie maks. 65 V, na tabliczce maks. 55 V. 300 zł",
        "Microinversor 800 W, na internet máx. 65 V, na etiqueta máx. 55 V. 60 €",
        "Mikroměnič 800 W, na webu max. 65 V, na štítku max. 55 V. 1500 Kč",
        "Mikroinverter 800 W, på nettet maks. 65 V, på mærkaten maks. 55 V. 600 kr.",
    ],
)
def test_of_two_limits_of_one_input_the_lower_is_taken_and_doubted(body):
    assert limits(body) == (55, None, None, True)


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("Inverter 800 W, input 1 max 14 A, input 2 max 12 A, max 60 V. £60", (60, 12, None)),
        ("Wechselrichter 800 W, max. MPP-Spannung 55 V, max. DC 60 V, Strom max. 14 A, Isc max. 18 A", (60, 14, 18)),
        ("Inverter 800 W, max AC current 3.5 A, max DC current 14 A, max DC 60 V. £60", (60, 14, None)),
        ("Mikrofalownik 800 W, max 60 V, prąd max 2x15A, zwarcie 2x20A. 300 zł", (60, 15, None)),
        ("Wechselrichter 800 W, max. 60 V, Überspannungsschutz max. 100 V, 14 A. 60 Euro", (60, 14, None)),
    ],
)  # fmt: skip
def test_limits_of_two_things_do_not_disagree(body, told):
    assert limits(body) == (*told, False)


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W, max 60 V, ran with 18 A panels fine. £60",
        "Micro inverter 800 W, max 60 V, ran with panels up to 18 A. £60",
        "Micro inverter 800 W, max 60 V. I had 18 A bifacial panels on it. £60",
        "Wechselrichter 800 W, max. 60 V, lief mit 18-A-Modulen. 60 Euro",
        "Omvormer 800 W, max 60 V, draaide met 18 A panelen. 60 euro",
        "Micro-onduleur 800 W, max 60 V, tournait avec des panneaux à 18 A. 60 €",
        "Microinversor 800 W, máx. 60 V, funcionaba con placas de 18 A. 60 €",
        "Microinverter 800 W, max 60 V, usato con pannelli da 18 A senza problemi. 60 euro",
        "Mikroinwerter 800 W, maks. 60 V, pracował z panelami o prądzie 18 A. 300 zł",
        "Mikroměnič 800 W, max. 60 V, fungoval s panely 18 A. 1500 Kč",
        "Wechselrichter 800 W, beide Strings max. 28 A, max. 60 V. 60 Euro",
        "Micro-onduleur 800 W, entrées en parallèle 28 A max, 60 V max. 60 €",
        "Mikroinwerter 800 W, wejścia równolegle maks. 28 A, maks. 60 V. 300 zł",
    ],
)
def test_amperes_of_panels_that_ran_on_it_and_of_inputs_in_parallel_are_no_limit_of_one(body):
    assert limits(body) == (60, None, None, False)


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W, max 60 V, max 14 A. Ran two 400 W panels. £60",
        "Wechselrichter 800 W, max. 60 V, 14 A je Eingang, lief mit zwei 400 W Modulen. 60 Euro",
        "Microinverter 800 W, usato con due pannelli, max 14 A per ingresso, max 60 V. 60 euro",
        "Wechselrichter 800 W, zwei Eingänge je max. 14 A, Module parallel möglich, max. 60 V. 60 Euro",
        "Used inverter 800 W for panels up to 14 A, max 60 V. £60",
    ],
)
def test_limits_beside_words_for_running_stay(body):
    assert limits(body) == (60, 14, None, False)


@pytest.mark.parametrize(
    ("body", "name", "told"),
    [
        ("Solar panel 400 W, Voc is not 41 V but 37 V, £40", "open_circuit_voltage_v", (37, False)),
        ("Solarmodul 400 W, Isc nicht 18 A, sondern 13,9 A, 40 Euro", "short_circuit_current_a", (13.9, False)),
        ("Solar panel 400 W, Voc 41 V on the web, Voc 37 V on the label. £40", "open_circuit_voltage_v", (37, True)),
        ("Panneau 400 W, Voc 37 V sur l'étiquette, Voc 41 V sur internet. 40 €", "open_circuit_voltage_v", (37, True)),
        (
            "Solar panel 400 W, Voc 41 V says the seller, Voc 37 V his neighbour, £40",
            "open_circuit_voltage_v",
            (None, True),
        ),
        ("Solar panel 400 W, Voc 37 V, Isc 13.9 A. Voc 37.1 V. £40", "open_circuit_voltage_v", (37, False)),
        ("Panel 400 W, no 12 V panel, Voc 37 V £40", "open_circuit_voltage_v", (37, False)),
        ("Solar panel 400 W, Voc 37.1 V, Vmp 31.2 V, label intact. £40", "open_circuit_voltage_v", (37.1, False)),
    ],
)
def test_of_two_ratings_of_a_panel_the_label_counts(body, name, told):
    assert panel(body, name) == told
