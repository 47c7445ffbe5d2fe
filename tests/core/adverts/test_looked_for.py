"""What is looked for: goods by a buyer; a price, a sale or a buyer by a seller."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("Two 300W panels, used. Looking for £40 each", 40),
        ("Two 300W panels, used. Looking for around 40 pounds each. Collection", 40),
        ("Two 300W panels, used. Looking for a fast sale. £40 each", 40),
        ("Two 300W panels. Looking for a swap or £40 each", 40),
        ("2 Module 300 W. Suche schnellen Verkauf, je 40 €", 40),
        ("2 Module 300 W. Suche Tauschpartner, sonst je 40 €", 40),
        ("2 panelen 300 W. Ik zoek een vlotte verkoop, 40 euro per stuk", 40),
        ("2 panneaux 300 W. Je cherche environ 40 € pièce", 40),
        ("2 placas 300 W. Busco un precio justo, 40 € cada una", 40),
        ("2 pannelli 300 W. Cerco rapida vendita, 40 € l'uno", 40),
        ("2 panele 300 W. Szukam szybkiej sprzedaży, 100 zł sztuka", 100),
        ("2 painéis 300 W. Procuro venda rápida, 40 € cada", 40),
        ("2 painéis 300 W. Procuro cerca de 40 € cada", 40),
        ("2 panely 300 W. Hledám rychlý prodej, 500 Kč kus", 500),
        ("2 paneler 300 W. Søger hurtig handel, 200 kr stk", 200),
    ],
)
def test_a_price_or_a_sale_that_is_looked_for_makes_no_buyer(body, each):
    reading = reading_of(body)
    assert reading.is_offer
    assert reading.price.each == each


@pytest.mark.parametrize(
    "body",
    [
        "Hi all. Looking for 300W panels, used, up to £40 each",
        "Balcony flat. Looking for a quick buy of two 300 W panels",
        "Suche 2 Module 300 W, zahle 40 € pro Stück",
        "Busco 2 placas de 300 W, pago 40 €",
        "Procuro 2 painéis de 300 W, cerca de 40 € cada",
        "Søger 2 paneler 300 W, giver 200 kr stk",
    ],
)
def test_goods_that_are_looked_for_make_a_buyer(body):
    assert reading_of(body).doubts == ("wanted_ad",)


@pytest.mark.parametrize(
    "body",
    [
        "Has anybody got 2 panels 400 W for sale?",
        "Verkauft jemand 2 Module mit 400 W?",
        "Heeft iemand 2 panelen van 400 W te koop?",
        "Quelqu'un aurait 2 panneaux de 400 W à vendre ?",
        "Hola, ¿alguien vende 2 placas de 400 W?",
        "Qualcuno ha 2 pannelli da 400 W da vendere?",
        "Czy ktoś sprzeda 2 panele 400 W?",
        "Alguém vende painéis de 400 W?",
        "Má někdo 2 panely 400 W na prodej?",
        "Er der nogen, der sælger 2 paneler på 400 W?",
    ],
)
def test_a_question_whether_somebody_sells_is_no_offer(body):
    reading = reading_of(body)
    assert (reading.is_offer, reading.doubts) == (False, ("wanted_ad",))


@pytest.mark.parametrize(
    "body",
    [
        "Qualcuno ha bisogno di 2 pannelli da 400 W? Vendo a 40 € l'uno",
        "Verkaufe 2 Module 400 W. Will jemand sie haben?",
        "Anyone interested? 2 panels 400 W for sale, £40 each",
        "2 panels 400 W, £40 each. Does anyone know somebody who sells brackets?",
    ],
)
def test_other_questions_leave_an_offer(body):
    assert reading_of(body).is_offer


@pytest.mark.parametrize(
    "body",
    [
        "Are you looking for cheap panels? I have 12 used 255 W panels at £18 each.",
        "Looking for solar? 12 used 255 W panels, £18 each, collect in Ely.",
        "Op zoek naar goedkope panelen? Wij hebben 12 gebruikte panelen 255 Wp, 18 euro per stuk.",
        "Bent u op zoek naar panelen? 12 gebruikte panelen 255 Wp, 18 euro per stuk.",
        "Suchen Sie günstige Module? Wir haben 12 gebrauchte Module 255 W, je 18 €.",
        "Vous cherchez des panneaux ? J'ai 12 panneaux 255 W d'occasion, 18 € pièce.",
        "Cerchi pannelli? Ho 12 pannelli 255 W usati, 18 € l'uno.",
    ],
)
def test_a_question_to_the_buyer_before_goods_at_a_price_is_an_offer(body):
    found = read_advert(Advert(title="", body=body), WORDS)
    assert (found.is_offer, found.kind, found.quantity_available, found.price.each) == (True, "panel", 12, 18)


@pytest.mark.parametrize(
    "body",
    [
        "Looking for two panels 400 W, who has some? Max £40 each.",
        "I am looking for two panels 400 W, can you help? £40 each is what I have.",
        "Looking for panels? No, for an inverter of 800 W, I pay £40.",
        "Op zoek naar 2 panelen 400 W, wie heeft er? Max 40 euro per stuk.",
        "Looking for two panels 400 W. Got any? Up to £40 each.",
    ],
)
def test_a_question_of_somebody_who_looks_for_goods_is_none(body):
    assert not read_advert(Advert(title="", body=body), WORDS).is_offer


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Buying used solar panels", "Buying 300 W panels in any state, up to £25 each"),
        ("", "We need four 400 W panels for a shed, cheap please"),
        ("Solar panels needed", ""),
        ("Hat jemand Solarmodule?", "Brauche 3 Module 300 W für die Laube"),
        ("Benötige 2 Solarmodule", ""),
        ("Zonnepanelen nodig", "4 stuks voor een schuurtje"),
        ("", "Wij kopen gebruikte zonnepanelen, tot 30 euro per stuk"),
        ("Besoin de 4 panneaux solaires", ""),
        ("", "Je souhaite acheter 4 panneaux 300 W, 30 € pièce maxi"),
        ("Se necesitan 6 placas solares", ""),
        ("", "Me hacen falta 4 paneles de 300 W para el cobertizo"),
        ("Ci servono 4 pannelli", "Pannelli da 300 W"),
        ("", "Vorrei acquistare 4 pannelli da 300 W"),
        ("Potrzebne panele", ""),
        ("", "Chcę kupić 4 panele 300 W na altanę"),
        ("Gostaria de comprar painéis", ""),
        ("", "Preciso de 4 painéis de 300 W para o anexo"),
        ("Sháníme panely na chatu", ""),
        ("", "Potřebujeme 4 panely 300 W na kůlnu"),
        ("Mangler solpaneler", "4 stk til et skur"),
        ("", "Vi vil gerne købe 4 paneler på 300 W, op til 120 kr stykket"),
    ],
)
def test_what_somebody_needs_or_buys_is_not_offered(title, body):
    reading = read_advert(Advert(title=title, body=body), WORDS)
    assert (reading.is_offer, reading.doubts) == (False, ("wanted_ad",))


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 panels 300 W", "We need the space. £40 each"),
        ("2 Module, Wechselrichter benötigt", "2 Module 400 W je 40 €"),
        ("4 panelen 300 W", "Ik heb de ruimte nodig, 40 euro per stuk"),
        ("4 panneaux 300 W", "Besoin de place, 40 € pièce"),
        ("4 placas 300 W", "Necesito el sitio, 40 € cada una"),
        ("4 pannelli 300 W", "Mi serve lo spazio, 40 € l'uno"),
        ("4 panele 300 W", "Potrzebuję miejsca, 100 zł sztuka"),
        ("4 painéis 300 W", "Preciso do espaço, 40 € cada"),
        ("4 panely 300 W", "Kdo má zájem, volejte. 500 Kč kus"),
        ("4 paneler 300 W", "Mangler plads, 200 kr stk. Køber henter selv"),
    ],
)
def test_a_seller_who_needs_something_else_is_no_buyer(title, body):
    assert read_advert(Advert(title=title, body=body), WORDS).is_offer
