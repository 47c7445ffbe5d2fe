"""Who looks for a buyer or a new home offers; who looks for panels for a new home does not."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Looking for a buyer for 4 panels 310 W, £25 each",
        "Suche Käufer für 4 Module 310 W, 25 € pro Stück",
        "Wij zoeken een nieuwe eigenaar voor 4 panelen van 310 Wp, 25 euro per stuk",
        "Zoek koper voor 4 panelen 310 Wp, 25 euro per stuk",
        "Cherche nouveau propriétaire pour 4 panneaux 310 W, 25 € pièce",
        "Busco comprador para 4 placas de 310 W, 25 € cada una",
        "Cerco nuova casa per 4 pannelli da 310 W, 25 € l'uno",
        "Szukam nabywcy na 4 panele 310 W, 25 zł za sztukę",
        "Procuro comprador para 4 painéis 310 W, 25 € cada um",
        "Hledám kupce na 4 panely 310 W, 25 Kč za kus",
        "Søger ny ejer til 4 solpaneler 310 W, 25 kr. pr. stk.",
    ],
)
def test_a_buyer_or_a_new_home_is_looked_for_by_a_seller(body):
    reading = reading_of(body)
    assert (reading.kind, reading.is_offer, reading.quantity_available) == ("panel", True, 4)
    assert (reading.price.each, reading.panel["rated_power_w"]) == (25, 310)


@pytest.mark.parametrize(
    "body",
    [
        "Looking for 4 panels 310 W for our new home",
        "Looking for home solar panels, up to £100",
        "Suche 4 Module 310 W für mein neues Zuhause",
        "Zoek 4 panelen 310 Wp voor mijn nieuwe huis",
        "Cherche nouveau panneau 310 W",
        "Busco nuevo inversor 800 W, pago hasta 100 €",
        "Cerco 4 pannelli 310 W per la nuova casa",
        "Szukam 4 paneli 310 W do nowego domu",
        "Procuro 4 painéis 310 W para a nova casa",
        "Hledám 4 panely 310 W pro nový domov",
        "Søger 4 solpaneler 310 W til nyt hjem",
    ],
)
def test_who_looks_for_goods_does_not_offer_them(body):
    reading = reading_of(body)
    assert (reading.is_offer, reading.doubts) == (False, ("wanted_ad",))
