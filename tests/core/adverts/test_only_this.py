"""An inverter out of a set, or sold alone, is no set; a kit with watts and a number of panels is one."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Wechselrichter (Balkonkraftwerk)", "600W 60 €"),
        ("WR Balkonkraftwerk 600W", "Funktioniert, 60 € VB"),
        ("Wechselrichter f. Balkonkraftwerk", "600W WR, 1 Jahr alt, 60 Euro VHB"),
        ("Mikroinwerter z zestawu balkonowego", "600 W, 60 zł"),
        ("Mikroinverter fra altansæt", "600 W, 60 kr"),
        ("Omvormer stekkerset", "600 W, 60 euro"),
        ("Microinverter di un kit balcone", "600 W, 60 €"),
        ("Mikroměnič z balkonové elektrárny", "600 W, 60 Kč"),
        ("Falownik, fotowoltaika balkonowa", "Falownik 600 W, 60 zł"),
        ("Wechselrichter", "Verkaufe nur den Wechselrichter 600 W, meine zwei 410W Module bleiben. 60€"),
        ("Micro inverter", "My 2 panels are 410W. Selling just the inverter 600W, £60"),
        ("Micro-onduleur", "Je vends uniquement l'onduleur 600 W, mes deux panneaux de 410 W restent. 60 €"),
        ("Inverter", "Vendo solo l'inverter 600 W, i miei due pannelli da 410 W restano. 60 €"),
        ("Falownik", "Sprzedam tylko falownik 600 W, moje dwa panele 410 W zostają. 60 zł"),
        ("Solar kit 2x410W + 600W inverter", "Panels already gone, inverter 600W left £60"),
    ],
)
def test_an_inverter_alone_is_no_set(title, body):
    found = reading_of(title, body)
    assert (found.kind, found.panel, found.price.each) == ("inverter", {}, 60)
    assert (found.quantity_available, found.inverter["ac_power_w"]) == (1, 600)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Balkonkraftwerk (Wechselrichter 800W, 2 Module)", "Module je 410 W, 300 €"),
        ("Mikrowechselrichter und 2 Module Balkonkraftwerk", "Module 410 W, WR 800 W, 300 €"),
        ("Balkonkraftwerk", "Nicht nur den Wechselrichter verkaufe ich: 2 Module 410 W, WR 800 W, 300 €"),
        ("Balkonkraftwerk", "Verkaufe nur den Wechselrichter mit 2 Modulen 410 W zusammen, 300 €"),
        ("Balcony kit", "Selling only as a set: 800W inverter and two 410W panels, £300"),
        ("solar", "600W inverter swapped for 800W one. 2 x 410W panels come with it. £300 the lot"),
    ],
)
def test_panels_that_come_along_make_a_set(title, body):
    found = reading_of(title, body)
    assert (found.kind, found.price.value) == ("set", 300)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Kit solaire", "Kit solaire 800 W avec 2 panneaux, 250 €"),
        ("kit", "kit solaire 800W 2 panneaux 250 €"),
        ("Balkonkraftwerk 800W 2 Module", "Balkonkraftwerk 800W 2 Module 250€"),
        ("Kit solar", "Kit solar 800 W con 2 placas, 250 €"),
        ("Plug-in solar", "Plug-in kit 800W with 2 panels £250"),
    ],
)
def test_watts_of_a_kit_are_no_panels(title, body):
    found = reading_of(title, body)
    assert (found.kind, found.panel, found.price.each) == ("set", {}, 250)


@pytest.mark.parametrize("body", ["Lot de 2 panneaux 400 W, 120 €", "2 Module 400W je 60 €"])
def test_watts_of_panels_stay_theirs(body):
    found = reading_of("", body)
    assert (found.kind, found.panel) == ("panel", {"rated_power_w": 400})
