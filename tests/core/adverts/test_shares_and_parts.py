"""A share of a price is no price; a part of what there is, is what is on offer."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "405W panel, new £130, yours for half that",
        "Modul 405W, neu 130 Euro, gebe es zum halben Preis",
        "Paneel 405 Wp, nieuw 130 euro, nu voor de helft",
        "Panneau 405 W, neuf 130 euros, je le laisse à moitié prix",
        "Panel 405 W, nuevo 130 euros, lo dejo a mitad de precio",
        "Pannello 405W, nuovo 130 euro, lo cedo a metà prezzo",
        "Panel 405 W, nowy 530 zł, oddam za połowę ceny",
        "Painel 405 W, novo 130 euros, vendo por metade do preço",
        "Panel 405 W, nový 3000 Kč, dám za polovinu ceny",
        "Solpanel 405 W, ny 900 kr, sælges til halv pris",
    ],
)
def test_what_it_costs_new_is_not_asked_where_a_share_of_it_is(body):
    reading = reading_of(body)
    assert (reading.price.value, reading.condition, reading.panel) == (None, "unknown", {"rated_power_w": 405})


def test_a_price_beside_a_share_stays_one():
    assert reading_of("Half price! 405W panel, new, £60").price.each == 60
    assert reading_of("Modul 405 W, neu 130 Euro, zum halben Preis, also 65 Euro").price.each == 65


@pytest.mark.parametrize(
    "body",
    [
        "Have 14 panels, selling 3, 310W, £30 each",
        "Selling 3 of my 14 panels, 310 W, £30 each",
        "Of 14 panels 3 are left, 310 W, £30 each",
        "Verkaufe 3 von 14 Modulen 310 W, 30 € pro Stück",
        "Von 14 Modulen sind noch 3 da, 310 W, 30 € pro Stück",
        "Te koop 3 van de 14 panelen, 310 Wp, 30 euro per stuk",
        "Van de 14 panelen zijn er nog 3 over, 310 Wp, 30 euro per stuk",
        "J'en ai 14, j'en vends 3, panneaux 310 W, 30 € pièce",
        "Sur 14 panneaux il en reste 3, 310 W, 30 € pièce",
        "Vendo 3 de 14 placas, 310 W, 30 € cada una",
        "Vendo 3 dei 14 pannelli, 310 W, 30 € l'uno",
        "Mam 14 paneli, sprzedam 3, 310 W, 100 zł za sztukę",
        "Vendo 3 dos 14 painéis, 310 W, 30 € cada um",
        "Mám 14 panelů, prodám 3, 310 W, 600 Kč za kus",
        "Har 14 solpaneler, sælger 3, 310 W, 200 kr. pr. stk.",
    ],
)
def test_a_part_of_what_there_is_is_what_is_offered(body):
    reading = reading_of(body)
    assert (reading.kind, reading.quantity_available, reading.panel) == ("panel", 3, {"rated_power_w": 310})


def test_all_of_it_is_offered_where_no_part_is():
    assert reading_of("14 panels 310 W, £30 each, 3 of them have scratches").quantity_available == 14
    assert reading_of("Verkaufe 14 Module 310 W, ab 3 Stück 30 € je Modul").quantity_available == 14
