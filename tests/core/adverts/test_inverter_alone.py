"""An inverter whose panels are told to be gone is one, no set; panels that are there make a set of it."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        (
            "Micro inverter 800 W",
            "Was on the shed with a pair of 410 W panels (panels already sold, inverter only!). £75.",
        ),
        ("Micro inverter 800 W", "Just the inverter, the two 420 W panels found a buyer last week. £70."),
        ("Micro inverter 800 W", "The two panels with 410 W each have gone, the inverter stayed. £75."),
        ("Mikrowechselrichter 800 W", "Nur Wechselrichter, die zwei Module mit 410 W sind verkauft. 75 Euro."),
        ("Mikrowechselrichter 800 W", "Nur noch der Wechselrichter, die 2 Module mit 420 W hat der Nachbar. 70 Euro."),
        ("Micro-onduleur 800 W", "Il ne reste que l'onduleur, les 2 panneaux de 420 W sont partis. 70 euros."),
        ("Microinversor 800 W", "Solo queda el inversor, las 2 placas de 420 W ya se vendieron. 70 euros."),
        ("Microinverter 800 W", "Era con due pannelli da 410 W (pannelli già venduti, solo inverter!). 75 euro."),
        (
            "Micro-omvormer 800 W",
            "Was deel van een set met twee panelen van 410 W, ik verkoop alleen de omvormer. 75 euro.",
        ),
        ("Mikroinwerter 800 W", "Został tylko inwerter, 2 panele 420 W już poszły. 70 zł."),
        ("Mikroměnič 800 W", "Zbyl jen měnič, 2 panely 420 W už jsou pryč. 70 Kč."),
    ],
)
def test_an_inverter_whose_panels_are_gone_is_alone(title, body):
    reading = reading_of(body, title)
    assert (reading.kind, reading.panel, reading.doubts) == ("inverter", {}, ())


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Inverter 800 W with panels", "Two 420 W panels come with it, not only the inverter. £240."),
        ("Balkonkraftwerk", "2 Module 420 W und Wechselrichter 800 W, andere Module schon verkauft. 240 Euro."),
        ("Kit solaire balcon", "2 panneaux 420 W et onduleur 800 W, jamais vendus séparément. 240 euros."),
        ("Zestaw balkonowy fotowoltaika", "2 panele 420 W i mikroinwerter 800 W, sprzedawane razem. 240 zł."),
        ("Altankraftværk solcelle", "2 paneler 420 W og inverter 800 W, sælges samlet. 240 kr."),
    ],
)
def test_panels_that_are_there_make_a_set(title, body):
    assert reading_of(body, title).kind == "set"
