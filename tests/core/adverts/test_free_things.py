"""What is free beside the goods gives none away, and the number of a road is no price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def price_of(body, field=None):
    return read_advert(Advert(title="", body=body, price_text=field), WORDS).price.value


@pytest.mark.parametrize(
    "body",
    [
        "2 panels 400 W, make me an offer. Parking is free.",
        "Free wifi. 2 panels 400 W, offers please.",
        "2 Module 400 W, Preis Verhandlungssache. Parken ist kostenlos.",
        "2 panelen 400 W, doe een bod. Parkeren is gratis.",
        "2 panneaux 400 W, faire offre. Le stationnement est gratuit.",
        "2 placas 400 W, precio a convenir. Aparcar es gratis.",
        "2 pannelli 400 W, prezzo da concordare. Il parcheggio è gratis.",
        "2 panele 400 W, cena do uzgodnienia. Kawa gratis.",
        "2 painéis 400 W, preço a combinar. Estacionamento grátis.",
        "2 panely 400 W, cena dohodou. Parkování zdarma.",
        "2 paneler 400 W, kom med et bud. Gratis parkering.",
    ],
)
def test_what_else_is_free_leaves_the_price_open(body):
    assert price_of(body) is None


@pytest.mark.parametrize(
    "body",
    [
        "2 panels 400 W. Free!", "2 panels 400 W, free, collect only", "Free: 2 panels 400 W",
        "Solarmodul 400 W kostenlos abzugeben", "Zu verschenken: 2 Module 400 W", "2 Module 400 W, gratis",
        "Gratis af te halen: 2 panelen 400 W", "2 panneaux 400 W, gratuit", "2 placas 400 W, gratis",
        "2 pannelli 400 W, gratis", "2 panele 400 W, gratis", "2 painéis 400 W, grátis", "2 panely 400 W, zdarma",
        "2 paneler 400 W, gratis",
    ],
)  # fmt: skip
def test_goods_that_are_free_cost_nothing(body):
    assert price_of(body) == 0


@pytest.mark.parametrize(
    "body",
    [
        "Modul 400 W. Nur 5 Minuten von der A3. Abholung", "Modul 400 W, Abholung an der A 3.",
        "2 Module 400 W. Abfahrt 4 der A7.", "Panel 400 W, just off the A1.",
    ],
)  # fmt: skip
def test_the_number_of_a_road_is_no_price(body):
    assert price_of(body, "60 €") == 60


def test_so_much_a_piece_is_still_read():
    assert price_of("10 Module 400 W a 20 €") == 20
