"""What the seller's inverter takes is no rating of the panels, and theirs is no name of an input's current."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "2 solar panels 300 W, £90 each. Mind your inverter: mine accepts 60 V open circuit at most.",
        "2 Solarmodule 300 W, 90 Euro das Stück. Auf den Wechselrichter achten: meiner verträgt 60 V Leerlaufspannung.",
        "2 panneaux solaires 300 W. Vérifiez l'onduleur : le mien accepte 60 V à vide. 90 euros pièce.",
        "2 placas solares 300 W. Mirad el inversor: el mío aguanta 60 V en vacío. 90 euros cada una.",
        "2 pannelli 300 W. Guardate l'inverter: il mio regge 60 V a vuoto e 14 A di corto circuito. 90 euro l'uno.",
        "2 zonnepanelen 300 W. Check je omvormer: de mijne kan 60 V nullast aan. 90 euro per stuk.",
        "2 panele 300 W. Sprawdźcie inwerter: mój przyjmuje 60 V jałowego. 400 zł za sztukę.",
        "2 solární panely 300 W. Pozor na měnič: můj vydrží 60 V naprázdno. 900 Kč za kus.",
        "2 solpaneler 300 W. Husk inverteren: min klarer 60 V i tomgang. 900 kr. pr. stk.",
        "2 painéis solares 300 W. Vejam o inversor: o meu aceita 60 V em vazio. 90 euros cada.",
    ],
)
def test_what_ones_inverter_takes_is_no_rating_of_the_panels(body):
    reading = reading_of(body)
    assert reading.panel == {"rated_power_w": 300}


@pytest.mark.parametrize(
    "body",
    [
        "2 solar panels 300 W, Voc 45 V, so an inverter that accepts 60 V will do. £90 each.",
        "2 Solarmodule 300 W, Voc 45 V. Mein Wechselrichter verträgt 60 V, also zwei parallel. 90 Euro das Stück.",
        "2 panneaux solaires 300 W, tension à vide 45 V, mon onduleur acceptait tout. 90 euros pièce.",
    ],
)
def test_their_own_volts_stay(body):
    assert reading_of(body).panel["open_circuit_voltage_v"] == 45


@pytest.mark.parametrize(
    "body",
    [
        "Micro-onduleur 600 W. Des panneaux de 13,9 A de court-circuit étaient trop pour ses entrées de 10 A. 60 €.",
        "Microinversor 600 W. Placas de 13,9 A de cortocircuito eran demasiado para sus entradas de 10 A. 60 €.",
        "Micro-omvormer 600 W. Panelen met 13,9 A kortsluitstroom waren te veel voor de ingangen van 10 A. 60 euro.",
        "Microinversor 600 W. Painéis com 13,9 A de curto-circuito eram demais para as entradas de 10 A. 60 euros.",
    ],
)
def test_the_short_circuit_of_panels_is_no_name_of_what_an_input_takes(body):
    assert "max_short_circuit_current_a" not in reading_of(body).inverter


def test_the_name_of_an_inputs_current_stays():
    body = "Microinversor 600 W. Entradas de 14 A, curto-circuito máximo 18 A. 60 euros."
    reading = reading_of(body)
    assert reading.inverter["max_short_circuit_current_a"] == 18
    assert reading.inverter["max_current_a"] == 14
