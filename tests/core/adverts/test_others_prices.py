"""What others ask or offer, and what the seller asked before, is not the price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def price_of(body):
    return read_advert(Advert(title="", body=body), WORDS).price


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("2 solar panels 300 W. My brother sold his for £40 each, mine are £90 each.", 90),
        ("2 solar panels 300 W. I was offered £40 for one, but it's £90 each.", 90),
        ("2 Solarmodule 300 W. Mein Kollege hat seine für 40 Euro verkauft, ich möchte 90 Euro pro Stück.", 90),
        ("2 panneaux solaires 300 W. Un voisin les vendait 40 euros, moi j'en demande 90 euros pièce.", 90),
        ("2 placas solares 300 W. Mi vecino vendió las suyas a 40 euros, yo quiero 90 euros cada una.", 90),
        ("2 pannelli solari 300 W. Il vicino li dà a 40 euro, io ne chiedo 90 euro l'uno.", 90),
        ("2 zonnepanelen 300 W. Mijn broer verkocht de zijne voor 40 euro, ik vraag 90 euro per stuk.", 90),
        ("2 panele 300 W. Proponowano mi 100 zł za sztukę, ale chcę 400 zł za sztukę.", 400),
        ("2 solární panely 300 W. Kupoval jsem za 1500 Kč za kus, prodám za 900 Kč za kus.", 900),
        ("2 solpaneler 300 W. Jeg gav 1500 kr. pr. stk., sælges for 900 kr. pr. stk.", 900),
        ("2 painéis solares 300 W. O meu cunhado vendeu os dele a 40 euros, eu peço 90 euros cada.", 90),
    ],
)
def test_the_price_is_what_the_seller_asks(body, each):
    assert price_of(body).each == each


@pytest.mark.parametrize(
    "body",
    [
        "2 solar panels 300 W. First £120 each, then £105, last price £90 each.",
        "2 Solarmodule 300 W. Zuerst 120 Euro das Stück, dann 105, letzter Preis 90 Euro das Stück.",
        "2 solar panels 300 W. £150 each new. Want £90 each.",
        "2 zonnepanelen 300 W. Nieuw 150 euro per stuk. Ik vraag 90 euro per stuk.",
    ],
)
def test_it_is_what_is_asked_last(body):
    assert price_of(body).each == 90


@pytest.mark.parametrize(
    "body",
    [
        "2 solar panels 300 W. £90 each, I was offered nothing so far.",
        "2 solar panels 300 W. £90 each. My brother brings them for £20, but you may fetch them.",
        "2 Solarmodule 300 W. 90 Euro pro Stück, zuerst anrufen. Klemmen 15 Euro.",
        "2 panneaux solaires 300 W. 90 euros pièce, ou 160 euros les deux. Mon voisin aide à charger.",
        "2 placas solares 300 W. Mi precio son 90 euros cada una, mi vecino pide lo mismo.",
    ],
)
def test_an_amount_without_another_ones_word_stays(body):
    assert price_of(body).each == 90
