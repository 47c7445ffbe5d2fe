"""What they cost new with "each" behind it, sets of so many, and what sending costs behind a price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "New cost me £160 each, 5 panels 310 W, now £40 each.",
        "Kosteten neu 160 € das Stück, jetzt 40 € das Stück, 5 Module 310 W.",
        "Kostten nieuw 160 euro per stuk, nu 40 euro per stuk, 5 panelen 310 Wp.",
        "Ils coûtaient neufs 160 € pièce, je vends 40 € pièce, 5 panneaux 310 W.",
        "Costaron nuevas 160 € cada una, ahora 40 € cada una, 5 placas 310 W.",
        "Costavano nuovi 160 € l'uno, ora 40 € l'uno, 5 pannelli da 310 W.",
        "Kosztowały nowe 160 zł za sztukę, teraz 40 zł za sztukę, 5 paneli 310 W.",
        "Custaram novos 160 € cada, agora 40 € cada, 5 painéis 310 W.",
        "Stály nové 1600 Kč za kus, teď 40 Kč za kus, 5 panelů 310 W.",
        "Kostede nye 1600 kr stk, nu 40 kr stk, 5 paneler 310 W.",
    ],
)
def test_what_they_cost_new_is_not_asked(body):
    assert reading_of(body).price.each == 40


def test_a_number_of_boxes_is_no_price():
    assert reading_of("5 Sätze à 3 Module, 310 W, Satz 90 €").price.value == 90


@pytest.mark.parametrize(
    "body", ["Placa 310 W, 40 € envío 9", "Panel 310 W, £40 postage 9", "Modul 310 W, 40 € Versand 9."]
)
def test_the_figure_behind_sending_is_what_sending_costs(body):
    reading = reading_of(body)
    assert (reading.price.value, reading.shipping_cost) == (40, 9)
