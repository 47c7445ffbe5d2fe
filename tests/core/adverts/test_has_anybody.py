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


@pytest.mark.parametrize(
    "body",
    [
        "Who has a 320 W panel for sale? I pay up to £35",
        "After a 320 W panel? So am I, my budget is £35",
        "Wer hat ein Modul 320 W abzugeben? Zahle 35 Euro",
        "Suchst du ein Modul 320 W? Ich auch, zahle 35 Euro",
        "Heeft iemand een zonnepaneel 320 W te koop? Ik betaal tot 35 euro",
        "Qui a un panneau 320 W à vendre ? Je paie 35 €",
        "Tu cherches un panneau 320 W ? Moi aussi, je paie 35 €",
        "¿Alguien tiene en venta una placa de 320 W? Pago 35 €",
        "¿Buscas una placa de 320 W? Yo también, pago 35 €",
        "Qualcuno ha in vendita un pannello da 320 W? Pago 35 €",
        "Czy ktoś ma na sprzedaż panel 320 W? Płacę 120 zł",
        "Alguém tem à venda um painel de 320 W? Pago 35 €",
        "Nemá někdo na prodej panel 320 W? Zaplatím 800 Kč",
        "Har nogen et solpanel på 320 W til salg? Jeg betaler 250 kr",
    ],
)
def test_who_asks_who_sells_and_tells_what_he_pays_is_a_buyer(body):
    reading = read_advert(Advert(title="Solar 320 W", body=body), WORDS)
    assert not reading.is_offer
    assert "wanted_ad" in reading.doubts


@pytest.mark.parametrize(
    "body",
    [
        "Who would like a 320 W panel? For sale at £35",
        "Want to save? So do I! Panel 320 W, £35",
        "Wer hat Platz für ein Modul 320 W? Zu verkaufen, 35 Euro",
        "Wie heeft plek voor een zonnepaneel 320 W? Te koop, 35 euro",
        "Qui veut un panneau 320 W ? À vendre, 35 €",
        "¿Quién quiere una placa de 320 W? En venta, 35 €",
        "Chi vuole un pannello da 320 W? In vendita, 35 €",
        "Kto chce panel 320 W? Na sprzedaż, 120 zł",
        "Quem quer um painel de 320 W? À venda, 35 €",
        "Kdo chce panel 320 W? Na prodej, 800 Kč",
        "Hvem vil have et solpanel på 320 W? Til salg, 250 kr",
    ],
)
def test_who_asks_who_wants_what_he_sells_is_none(body):
    assert read_advert(Advert(title="Solar panel 320 W", body=body), WORDS).is_offer
