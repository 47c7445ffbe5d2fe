"""The watts of the panels that an inverter takes are never its own output."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "watts"),
    [
        ("Inverter up to 4 panels of 450 W, 1500 W AC, £90", 1500),
        ("Micro inverter for two panels (440 W each), 700 W AC. £60", 700),
        ("Wechselrichter für bis zu 3 Module à 480 W, 1500 W AC, 90 €", 1500),
        ("Wechselrichter für zwei Module mit 700 W Ausgang, 60 €", 700),
        ("Omvormer tot 3 panelen van 480 W, 1500 W AC, 90 euro", 1500),
        ("Onduleur jusqu'à 3 panneaux de 480 W, sortie 1500 W, 90 €", 1500),
        ("Onduleur pour 2 panneaux, 440 W max chacun. Puissance 700 W. 60 €", 700),
        ("Inversor para 3 placas de 480 W, potencia 1500 W, 90 €", 1500),
        ("Inversor para 2 paneles de hasta 480 W cada uno, 700 W de salida, 60 euros", 700),
        ("Inverter per 3 pannelli da 480 W, uscita 1500 W, 90 €", 1500),
        ("Mikroinwerter do 3 paneli po 480 W, moc 1500 W, 400 zł", 1500),
        ("Inversor para 3 painéis de até 480 W, saída 1500 W, 90 €", 1500),
        ("Měnič pro 3 panely po 480 W, výkon 1500 W, 2000 Kč", 1500),
        ("Inverter til 3 paneler på 480 W, 1500 W AC, 700 kr", 1500),
    ],
)
def test_the_output_is_read_beside_the_watts_of_the_panels(body, watts):
    reading = reading_of(body)
    assert (reading.kind, reading.inverter.get("ac_power_w"), dict(reading.panel)) == ("inverter", watts, {})


@pytest.mark.parametrize(
    "body",
    [
        "Inverter, max PV input 2 x 480W, AC output 700W, £80",
        "Wechselrichter: max. PV-Leistung 2x480W, Nennleistung AC 700W, 80 €",
        "Wechselrichter, DC-Eingang max. 2 x 480 W, AC-Ausgang max. 700 W, 80 €",
        "Omvormer: max PV-vermogen 2x480 W, nominaal 700 W, 80 euro",
        "Onduleur, entrée max 2 x 480 W, sortie AC 700 W, 80 €",
        "Inversor, entrada máxima 2 x 480 W, salida 700 W, 80 €",
        "Inverter, ingresso max 2 x 480 W, uscita 700 W, 80 €",
        "Inwerter, wejście max 2 x 480 W, wyjście 700 W, 300 zł",
        "Inversor, entrada máxima 2 x 480 W, saída 700 W, 80 €",
        "Měnič, vstup max. 2 x 480 W, výstup 700 W, 2000 Kč",
        "Inverter, maks. input 2 x 480 W, output 700 W, 700 kr",
    ],
)
def test_what_an_input_takes_is_no_output(body):
    reading = reading_of(body)
    assert (reading.kind, reading.inverter.get("ac_power_w"), dict(reading.panel)) == ("inverter", 700, {})


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter for panels from 320 to 520 W, £60",
        "Wechselrichter für Module von 320 bis 520 W, 60 €",
        "Wechselrichter für zwei Module mit einer Leistung von je 520 W, 60 €",
        "Micro-omvormer voor panelen van 320 tot 520 W, 60 euro",
        "Micro-onduleur pour modules de 320 à 520 W, 60 €",
        "Microinversor compatible con módulos de hasta 520 W, 60 €",
        "Microinverter, accetta moduli fino a 520 W, 60 €",
        "Mikroinwerter do paneli o mocy do 520 W, 300 zł",
        "Microinversor para painéis de até 520 W, 60 €",
        "Mikroměnič pro panely o výkonu do 520 W, 1500 Kč",
        "Mikroinverter til paneler på op til 520 W, 500 kr",
    ],
)
def test_an_output_that_is_not_told_is_left_out(body):
    reading = reading_of(body)
    assert (reading.kind, dict(reading.inverter), dict(reading.panel)) == ("inverter", {}, {})


def test_watts_of_an_inverter_that_stands_behind_panels_stay_its_own():
    reading = reading_of("Two 410 W panels and a 700 W micro inverter, together £150")
    assert (reading.kind, reading.inverter["ac_power_w"], reading.panel["rated_power_w"]) == ("set", 700, 410)
    assert reading_of("Micro inverter 800 W with 2 inputs of 480 W each, £60").inverter["ac_power_w"] == 800
