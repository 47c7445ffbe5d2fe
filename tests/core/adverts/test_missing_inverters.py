"""A set of which the inverter is told to be missing is panels; a missing part of an inverter changes nothing."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("", "Balkonkraftwerk, es fehlt der 800-W-Wechselrichter, 2 Module 430 W. 130 €"),
        ("", "Balkonkraftwerk mit 2 Modulen 430 W, Wechselrichter ist leider weg. 130 €"),
        ("", "Solar kit with two 430 W panels, the inverter is missing. £130"),
        ("Solar kit 2 x 430 W with inverter", "Inverter missing. £130"),
        ("", "Balkonset met 2 panelen 430 W, de omvormer ontbreekt. 130 euro"),
        ("", "Stekkerset met 2 panelen 430 W, de omvormer zit er niet bij. 130 euro"),
        ("", "Kit solaire 2 panneaux 430 W, il manque l'onduleur. 130 €"),
        ("", "Kit solar con 2 placas de 430 W, falta el microinversor de 800 W. 130 €"),
        ("", "Kit da balcone 2 pannelli 430 W, inverter mancante. 130 €"),
        ("", "Zestaw balkonowy 2 panele 430 W, brakuje falownika. 600 zł"),
        ("", "Kit solar 2 painéis 430 W, inversor em falta. 130 €"),
        ("", "Balkonová elektrárna, 2 panely 430 W, chybí měnič 800 W. 3500 Kč"),
        ("", "Altansæt med 2 paneler 430 W, inverteren mangler. 900 kr."),
    ],
)
def test_a_set_without_its_inverter_is_panels(title, body):
    reading = reading_of(body, title)
    assert (reading.kind, reading.inverter) == ("panel", {})


@pytest.mark.parametrize(
    "body",
    [
        "Balkonkraftwerk 2 Module 430 W und Wechselrichter 800 W, Halterung fehlt. 230 €",
        "Balkonkraftwerk 2 Module 430 W, Wechselrichter 800 W muss weg. 230 €",
        "Balkonkraftwerk 2 Module 430 W, Wechselrichter 800 W, Anschlusskabel des Wechselrichters fehlt. 230 €",
        "Balkonkraftwerk 2 Module 430 W, Wechselrichter 800 W: Gehäusedeckel fehlt. 230 €",
        "Solar kit, 2 panels 430 W, 800 W inverter missing its mains lead. £230",
        "Solar kit, 2 panels 430 W, 800 W inverter, nothing missing. £230",
        "Kit solar 2 placas 430 W, al inversor 800 W le falta el cable. 230 €",
        "Kit solaire 2 panneaux 430 W, onduleur 800 W, il manque le câble de l'onduleur. 230 €",
        "Sæt med 2 paneler 430 W og inverter 800 W, kabel mangler. 1500 kr.",
        "Balkonkraftwerk 2 Module 430 W, Wechselrichter 800 W. Die Rechnung vom Wechselrichter fehlt. 230 €",
        "Balkonkraftwerk 2 Module 430 W, Wechselrichter 800 W. Dem Wechselrichter fehlt ein Fuß. 230 €",
        "Balkonkraftwerk 2 Module 430 W, Wechselrichter 800 W. Der Wechselrichter fehlt auf den Bildern. 230 €",
        "Solar kit, 2 panels 430 W, 800 W inverter. Inverter documents missing. £230",
        "Solar kit, 2 panels 430 W, 800 W inverter. A screw is missing on the inverter. £230",
        "Balkonset 2 panelen 430 W, omvormer 800 W. Aan de omvormer mist een schroef. 230 €",
        "Kit solaire 2 panneaux 430 W, onduleur 800 W. L'onduleur manque sur la photo. 230 €",
        "Kit solar 2 placas 430 W, inversor 800 W. Al inversor le falta un tornillo. 230 €",
        "Kit da balcone 2 pannelli 430 W, inverter 800 W. All'inverter manca una vite. 230 €",
        "Zestaw balkonowy 2 panele 430 W, inwerter 800 W. Brak zdjęcia inwertera. 900 zł",
        "Balkonová elektrárna 2 panely 430 W, měnič 800 W. U měniče chybí zástrčka. 5000 Kč",
        "Altansæt 2 paneler 430 W, inverter 800 W. Inverteren mangler en fod. 1500 kr.",
    ],
)
def test_what_else_is_missing_leaves_the_set(body):
    reading = reading_of(body)
    assert (reading.kind, reading.inverter.get("ac_power_w")) == ("set", 800)


def test_an_inverter_by_itself_stays_one():
    assert reading_of("Wechselrichter 800 W, Gehäusedeckel des Wechselrichters fehlt. 60 €").kind == "inverter"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Kit solar 800 W", "2 placas 400 W, Voc 37 V, falta el inversor de 800 W. 120 €"),
        ("Kit solaire 800 W", "2 panneaux 400 W, Voc 37 V, micro-onduleur 800 W manquant. 120 €"),
        ("", "Balkonkraftwerk 800 W mit 2 Modulen 400 W, leider fehlt der Wechselrichter. 120 €"),
        ("", "Solar kit, 800 W inverter missing, two panels 400 W. £120"),
    ],
)
def test_watts_of_the_missing_inverter_are_not_the_panels(title, body):
    assert reading_of(body, title).panel["rated_power_w"] == 400
