"""Who tells what he would pay for goods is a buyer; who offers goods for so much sells them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
BUYERS = (
    "Got a 300 W panel lying about? I'll give you £40 for it.",
    "Will buy your old 300 W panels, cash waiting.",
    "Ich biete 40 Euro für ein Modul mit 300 W.",
    "Habe Interesse an einem Modul 300 W, bis 40 Euro.",
    "Heb je een paneel 300 W over? Ik geef er 40 euro voor.",
    "Ik bied 40 euro voor een paneel van 300 W.",
    "J'offre 40 € pour un panneau 300 W.",
    "Ofrezco 40 € por una placa de 300 W.",
    "Te doy 40 € por tu placa de 300 W.",
    "Offro 40 € per un pannello da 300 W.",
    "Dam 150 zł za panel 300 W.",
    "Ofereço 40 € por um painel de 300 W.",
    "Dám 1000 Kč za panel 300 W.",
    "Jeg giver 400 kr for et panel 300 W.",
)
SELLERS = (
    "I'll give you the panel 300 W for £40.",
    "Panel 300 W, £40. Can pay by card too.",
    "Ich biete ein Modul mit 300 W für 40 Euro.",
    "Modul 300 W, 40 Euro. Bei Interesse bitte melden.",
    "Modul 300 W für 40 Euro, gebe 5 Euro für Benzin dazu",
    "Ik bied een paneel 300 W aan voor 40 euro.",
    "J'offre un panneau 300 W pour 40 €.",
    "Ofrezco placa de 300 W por 40 €.",
    "Offro pannello 300 W a 40 €.",
    "Dam panel 300 W za 150 zł.",
    "Ofereço painel 300 W por 40 €.",
    "Dám panel 300 W za 1000 Kč.",
    "Giver gerne panel 300 W væk for 400 kr.",
)


@pytest.mark.parametrize("text", BUYERS)
def test_a_bid_is_no_offer(text):
    reading = read_advert(Advert(title="", body=text), WORDS)
    assert (reading.is_offer, reading.price.value, reading.kind) == (False, None, "panel")


@pytest.mark.parametrize("text", SELLERS)
def test_goods_for_so_much_are_one(text):
    reading = read_advert(Advert(title="", body=text), WORDS)
    assert reading.is_offer
    assert reading.price.value in {40, 150, 1000, 400}
