"""A title that asks whether somebody has such goods looks for some, at whatever price the asker would pay."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def is_offer(title, body):
    reading = read_advert(Advert(title=title, body=body), WORDS)
    assert reading.is_offer or (reading.price.value is None and "wanted_ad" in reading.doubts)
    return reading.is_offer


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Has anyone a 270W panel left?", "One of ours cracked in the storm, same size please. Could stretch to £25."),
        ("Hätte jemand noch ein Modul 270 W?", "Eines von uns ist gerissen, 60 Zellen. Würde 25 € geben."),
        ("Heeft iemand nog een paneel 270 Wp?", "Een van de onze is stuk, 60 cellen. Ik geef 25 euro."),
        ("Quelqu'un a un panneau 270 W ?", "Un des nôtres est cassé, 60 cellules. Je mets 25 €."),
        ("¿Alguien tiene una placa de 270 W?", "Se nos rompió una, 60 células. Daría 25 €."),
        ("Qualcuno ha un modulo da 270 W?", "Uno dei nostri si è rotto, 60 celle. Darei 25 €."),
        ("Czy ktoś ma panel 270 W?", "Jeden nam pękł, 60 ogniw. Zapłacę 100 zł."),
        ("Alguém tem um painel de 270 W?", "Um dos nossos partiu, 60 células. Dava 25 €."),
        ("Nemá někdo panel 270 W?", "Jeden nám praskl, 60 článků. Dal bych 600 Kč."),
        ("Er der nogen som har et panel på 270 W?", "Et af vores er revnet, 60 celler. Jeg giver 150 kr."),
    ],
)
def test_who_asks_whether_somebody_has_some_offers_none(title, body):
    assert not is_offer(title, body)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Does anyone have a use for 6 panels?", "Six panels 270 W, £25 each."),
        ("Hat jemand Verwendung für Module?", "6 Module 270 W, je 25 €."),
        ("Heeft iemand interesse in panelen?", "6 panelen 270 Wp, 25 euro per stuk."),
        ("Quelqu'un a besoin de panneaux ?", "6 panneaux 270 W, 25 € pièce."),
        ("¿Alguien tiene interés en placas?", "6 placas 270 W, 25 € cada una."),
        ("Qualcuno ha bisogno di pannelli?", "6 pannelli 270 W, 25 € l'uno."),
        ("Alguém tem interesse em painéis?", "6 painéis 270 W, 25 € cada."),
        ("Má někdo zájem o panely?", "6 panelů 270 W, 600 Kč za kus."),
        ("Har nogen brug for paneler?", "6 paneler 270 W, 150 kr stk."),
    ],
)
def test_who_asks_whether_somebody_can_use_them_offers_some(title, body):
    assert is_offer(title, body)


@pytest.mark.parametrize("body", ["Mir fehlen zwei Module mit 270 W, 60 Zellen.", "Står og mangler 2 solceller 270 W"])
def test_who_lacks_some_offers_none(body):
    assert not is_offer("", body)
