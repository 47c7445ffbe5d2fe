"""A seller who asks what the reader looks for offers; a buyer who asks whether somebody sells does not."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Need some solar panels?", "I've got 6 x 270 W, £22 each"),
        ("Balkonkraftwerk gesucht? Hier ist eins", "2 x 405 W mit Wechselrichter 800 W, 240 €"),
        ("Günstige Solarmodule gesucht?", "10 Stück 270 W, je 22 €"),
        ("Zonnepanelen gezocht? Ik heb ze", "10 stuks 270 Wp, 22 euro per stuk"),
        ("Panelen nodig?", "Wij hebben 10 panelen van 270 Wp, 22 euro per stuk"),
        ("Besoin de panneaux solaires ?", "10 panneaux 270 W, 22 € pièce"),
        ("Mangler du solceller?", "10 paneler 270 W, 150 kr stk"),
        ("Solceller søges?", "Her er 10 på 270 W, 150 kr stk"),
        ("¿Buscas placas solares?", "10 de 270 W, 22 € cada una"),
        ("Cercate pannelli?", "10 da 270 W, 22 € l'uno"),
        ("Szukasz paneli?", "10 sztuk 270 W, 90 zł za sztukę"),
        ("Procura painéis?", "10 de 270 W, 22 € cada"),
        ("Hledáte panely?", "10 kusů 270 W, 500 Kč za kus"),
    ],
)
def test_an_offer_may_open_with_a_question(title, body):
    reading = read_advert(Advert(title=title, body=body), WORDS)
    assert reading.is_offer
    assert reading.price.value


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Need two solar panels, anyone?", "270 W, can pay £22 each"),
        ("Balkonkraftwerk gesucht", "2 x 405 W, zahle 240 €"),
        ("Solarmodule gesucht? Ja, von mir!", "Suche 10 Stück 270 W, bis 22 € je Stück"),
        ("Gezocht: panelen. Heeft iemand ze?", "270 Wp, betaal 22 euro per stuk"),
        ("Besoin de deux panneaux, qui en aurait ?", "270 W, je paie 22 € pièce"),
        ("Søges: solceller. Har du nogle?", "Giver 150 kr stk for 270 W"),
        ("Panelen nodig", "10 stuks 270 Wp, budget 22 euro per stuk"),
        ("Solarmodule gesucht?", "Melden Sie sich"),
    ],
)
def test_who_looks_for_goods_offers_none(title, body):
    assert not read_advert(Advert(title=title, body=body), WORDS).is_offer
