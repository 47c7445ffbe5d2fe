"""What sending costs, where it is told behind the price in a sentence of its own."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "each", "cost"),
    [
        ("2 used panels 400 W, £60 each. Postage only, £25", 60, 25),
        ("2 Module 400 W, je 60 €. Nur Versand, 25 €", 60, 25),
        ("2 panelen 400 W, 60 euro per stuk. Alleen verzenden, 25 euro", 60, 25),
        ("2 panneaux 400 W, 60 € pièce. Envoi uniquement, 25 €", 60, 25),
        ("Vendo 2 placas solares usadas de 400 W, 60 € cada una. Solo envío, 25 €", 60, 25),
        ("2 pannelli 400 W, 60 € l'uno. Solo spedizione, 25 €", 60, 25),
        ("2 panele 400 W, 250 zł sztuka. Tylko wysyłka, 60 zł", 250, 60),
        ("2 painéis 400 W, 60 € cada. Só envio, 25 €", 60, 25),
        ("2 panely 400 W, 1500 Kč kus. Pouze zasílám, 300 Kč", 1500, 300),
        ("2 paneler 400 W, 400 kr stykket.\nKun forsendelse, 99 kr", 400, 99),
    ],
)
def test_an_amount_in_a_sentence_that_only_tells_of_sending_is_its_cost(body, each, cost):
    reading = reading_of(body)
    assert (reading.price.each, reading.shipping_cost) == (each, cost)


@pytest.mark.parametrize(
    "body",
    [
        "2 Module 400 W. Versand möglich, 120 € zusammen",
        "2 panels 400 W. Can post. £120 for both",
        "2 Module 400 W, Neupreis 300 €. Versand ist kein Problem, 120 € zusammen",
    ],
)
def test_a_price_behind_words_on_sending_stays_the_price(body):
    reading = reading_of(body)
    assert (reading.price.value, reading.shipping_cost) == (120, None)
