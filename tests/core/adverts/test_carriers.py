"""What a cable, a connector, a breaker or a switch carries is no limit of an input."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def inverter_of(body):
    found = read_advert(Advert(title="", body=body), WORDS)
    assert found.kind == "inverter"
    return found.inverter


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W, max input 60 V, MC4 connectors rated 30 A max.",
        "Micro inverter 800 W, max input 60 V, connectors up to 30 A.",
        "Mikrowechselrichter 800 W, max. Eingangsspannung 60 V, MC4-type plugs bis 30 A.",
        "Mikrowechselrichter 800 W, max. Eingangsspannung 60 V, MC4-Stecker bis 30 A.",
        "Mikrowechselrichter 800 W, max. Eingangsspannung 60 V, Leitungsschutz max. 16 A.",
        "Mikrowechselrichter 800 W, max. Eingangsspannung 60 V, DC-Trennschalter bis 1000 V / 32 A.",
        "Micro-omvormer 800 W, max ingangsspanning 60 V, kabel max. 16 A.",
        "Micro-onduleur 800 W, tension max 60 V, câble max. 16 A.",
        "Microinversor 800 W, tensión máxima de entrada 60 V, conectores máx. 30 A.",
        "Microinverter 800 W, tensione massima 60 V, connettori max. 30 A.",
        "Mikroinwerter 800 W, maks. napięcie wejściowe 60 V, kabel maks. 16 A.",
        "Microinversor 800 W, tensão máxima 60 V, cabo máx. 16 A.",
        "Mikrostřídač 800 W, max. vstupní napětí 60 V, kabel max. 16 A.",
        "Mikroinverter 800 W, maks. indgangsspænding 60 V, kabel maks. 16 A.",
    ],
)
def test_amperes_of_a_carrier_are_no_limit(body):
    found = inverter_of(body)
    assert found["max_input_voltage_v"] == 60
    assert not {"max_current_a", "max_short_circuit_current_a"} & found.keys()


@pytest.mark.parametrize(
    "body",
    [
        "Wechselrichter 800 W mit 5 m Kabel 3x1,5 mm² (16 A). Max. Eingang 60 V / 14 A.",
        "Wechselrichter 800 W mit Kabel und Stecker. Max. Eingang 60 V, max. 14 A.",
        "Wechselrichter 800 W mit Kabel, max. 60 V, max. 14 A.",
        "Micro inverter 800 W with cable: max input current 14 A, 60 V.",
        "Micro inverter 800 W, max input 60 V / 14 A, MC4 connectors.",
        "Mikroinwerter 800 W z kablem. Maks. prąd wejściowy 14 A, maks. 60 V.",
    ],
)
def test_the_limit_beside_a_carrier_stays(body):
    assert inverter_of(body)["max_current_a"] == 14


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W. MC4 input max 14 A, 60 V max.",
        "Mikrowechselrichter 800 W. MC4-Eingang max. 14 A, max. 60 V.",
        "Micro-omvormer 800 W. MC4-ingang: 14 A, max 60 V.",
        "Micro-onduleur 800 W. Entrée MC4 max 14 A, max 60 V.",
        "Microinversor 800 W. Entrada (MC4) máx. 14 A, máx. 60 V.",
        "Microinverter 800 W. Ingresso MC4: 14 A, max 60 V.",
        "Mikroinwerter 800 W. Maks. prąd wejścia MC4 14 A, maks. 60 V.",
        "Microinversor 800 W. Corrente máxima da entrada MC4 14 A, máx. 60 V.",
        "Mikroměnič 800 W. Max. proud na vstup MC4 14 A, max. 60 V.",
        "Mikroinverter 800 W. Indgang MC4 14 A, maks. 60 V.",
    ],
)
def test_a_sort_of_connectors_beside_an_input_carries_nothing_of_its_own(body):
    assert inverter_of(body)["max_current_a"] == 14


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W. Max 60 V. MC4 connectors at the input rated 30 A.",
        "Micro inverter 800 W. Max 60 V. Input MC4 connectors 20 A.",
        "Mikrowechselrichter 800 W. Max. 60 V. Stecker am Eingang 30 A.",
        "Micro-onduleur 800 W. Max 60 V. Entrée MC4 30 A.",
        "Microinverter 800 W. Ingresso 60 V max, cavo MC4 da 30 A.",
        "Mikroměnič 800 W. Max. 60 V. Vstup s konektory MC4 30 A.",
    ],
)
def test_what_connectors_at_an_input_carry_is_no_limit(body):
    assert "max_current_a" not in inverter_of(body)
