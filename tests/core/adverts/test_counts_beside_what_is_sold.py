"""A number of panels in a sentence without watts, price or selling counts only where no other is told."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def told(body, title=""):
    reading = read_advert(Advert(title=title, body=body), WORDS)
    return reading.quantity_available, reading.price.each


@pytest.mark.parametrize(
    ("body", "quantity", "each"),
    [
        ("4 panels 400 W, £200 the lot. Replaced by 12 new panels.", 4, 50),
        ("Our old system had 16 panels. 2 panels 400 W, £100 for both.", 2, 50),
        ("4 Module 400 W, 200 € zusammen. Ersetzt durch 12 neue Module.", 4, 50),
        ("2 Module 400 W, 100 € zusammen. Unsere alte Anlage hatte 16 Module.", 2, 50),
        ("4 panelen 400 W, 200 euro samen. Vervangen door 12 nieuwe panelen.", 4, 50),
        ("4 placas 400 W, 200 € todo. Puse 12 placas nuevas.", 4, 50),
        ("4 pannelli 400 W, 200 € in tutto. Ho messo 12 pannelli nuovi.", 4, 50),
        ("4 panele 400 W, 800 zł razem. Zamontowałem 12 nowych paneli.", 4, 200),
        ("4 panely 400 W, 5000 Kč dohromady. Dal jsem 12 nových panelů.", 4, 1250),
        ("4 paneler 400 W, 1500 kr samlet. Jeg fik 12 nye paneler op.", 4, 375),
        ("4 painéis 400 W, 200 € tudo. Pus 12 painéis novos.", 4, 50),
    ],
)
def test_panels_of_another_sentence_are_not_those_that_are_sold(body, quantity, each):
    assert told(body) == (quantity, each)


@pytest.mark.parametrize(
    ("title", "body", "quantity"),
    [
        ("", "I have 12 panels. 400 W, £30 each.", 12),
        ("", "Es sind 12 Module. Leistung 400 W, Stück 30 €.", 12),
        ("12 Module", "Module 400 W, je 30 €.", 12),
        ("", "Verkaufe 12 Module. 400 W, je 30 €.", 12),
    ],
)
def test_a_number_that_no_other_contradicts_counts(title, body, quantity):
    assert told(body, title)[0] == quantity
