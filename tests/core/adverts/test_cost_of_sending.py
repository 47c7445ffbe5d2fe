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


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("4 Module 400 W je 45 €, Versand 25 € pro Modul", 45),
        ("4 panels 400 W, £45 each, postage £25 each", 45),
        ("4 panneaux 400 W 45 € pièce, envoi 25 € par panneau", 45),
        ("4 panelen 400 W 45 euro per stuk, verzending per paneel 25 euro", 45),
        ("4 pannelli 400 W 45 € l'uno, spedizione 25 € l'uno", 45),
        ("4 panely 400 W po 900 Kč, poštovné 150 Kč/ks", 900),
        ("4 paneler 400 W 300 kr. stk., fragt 25 kr. pr. panel", 300),
        ("Modul 400 W 45 €, Lieferung 1 € pro km", 45),
        ("Panel 400 W £45, delivery £1 per mile", 45),
        ("Placa 400 W 45 €, transporte 1 €/km", 45),
        ("Panel 400 W 200 zł, wysyłka 5 zł za kg", 200),
        ("Painel 400 W 45 €, entrega 0,80 € ao km", 45),
        ("6 panels 400 W £45 each, postage £20 first, £10 each additional", 45),
        ("6 Module 400 W je 45 €, Versand für das erste 20 €, für jedes weitere 10 €", 45),
    ],
)
def test_what_sending_of_each_piece_or_mile_costs_is_no_sum(body, each):
    reading = reading_of(body)
    assert (reading.price.each, reading.shipping_cost) == (each, None)
    assert reading.delivery in {"shipping", "either"}


@pytest.mark.parametrize(
    ("body", "cost"),
    [
        ("4 Module 400 W, 40 € pro Modul plus 80 € Versand", 80),
        ("4 panels 400 W, £80 delivery, £40 each", 80),
        ("4 panneaux 400 W 40 € pièce, livraison 80 € pour tout", 80),
        ("Panel 400 W 21 kg £50, postage £25", 25),
        ("1 Modul 400 W, 50 €, Versand 25 € pro Modul", 25),
    ],
)
def test_what_sending_all_of_them_costs_stays(body, cost):
    assert reading_of(body).shipping_cost == cost
