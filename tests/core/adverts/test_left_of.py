"""A bare number behind the counted goods tells how many are left or gone."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
NINE_OF_TWENTY = (
    "Had 20 panels 300 W, only 9 remain. £40 each",
    "20 panels 300 W, £40 each. Edit: 11 gone",
    "20 Module 300 W, 40 € pro Stück. 11 sind schon weg.",
    "20 Module 300 W, 40 € pro Stück. Update: nur noch 9.",
    "20 panelen 300 W, 40 euro per stuk. Er zijn er al 11 verkocht.",
    "20 panelen 300 W, 40 euro per stuk. Nog maar 9.",
    "20 panneaux 300 W, 40 € pièce. Plus que 9.",
    "20 placas 300 W, 40 € cada una. Sobran 9.",
    "Di 20 pannelli da 300 W ne avanzano 9. 40 € l'uno.",
    "20 paneli 300 W, 150 zł sztuka. Zostało 9.",
    "20 painéis 300 W, 40 € cada. Já vendi 11.",
    "20 panelů 300 W, 1000 Kč kus. Už jen 9.",
    "20 paneler 300 W, 400 kr. stk. 9 tilbage.",
    "20 panels 300 W, £40 each. Only 9 now.",
    "20 panels 300 W, £40 each. 11 have gone already.",
    "20 Module 300 W, je 40 €. Aktuell noch 9.",
    "20 placas 300 W, 40 € cada una. Ya he vendido 11.",
    "20 panelů 300 W, 1000 Kč kus. 11 už je pryč.",
    "De 20 painéis usei 11, sobram 9. 300 W, 40 € cada.",
    "Von 20 Modulen 11 verbaut, 9 übrig. 300 W, je 40 €.",
    "Af 20 paneler er 11 brugt, 9 tilovers. 300 W, 400 kr stk.",
)
ALL_TWENTY = (
    "20 panels 300 W, £40 each. 2 cables left over",
    "20 panels 300 W, £40 each. 2 inverters sold",
    "20 panels 300 W, £40 each. Sold 5 last week from another roof",
    "20 panels 300 W, £40 each. Ring after 6, gone by 9",
    "20 Module 300 W, je 40 €. Letzte Woche 5 verkauft, diese 20 sind da.",
    "20 panels 300 W, £40 each. Only 9 years old.",
    "20 panels, 300 W, £40 each, 6 over 2 m long",
    "20 Module 300 W, je 40 €. Nur 9 Jahre alt.",
    "20 painéis 300 W, 40 € cada. Já vendi 11 carros antes.",
    "20 panelen 300 W, 40 euro per stuk. Al 11 jaar op het dak.",
)


@pytest.mark.parametrize("text", NINE_OF_TWENTY)
def test_what_is_left_is_on_offer(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert (reading.kind, reading.quantity_available) == ("panel", 9)


@pytest.mark.parametrize("text", ALL_TWENTY)
def test_other_numbers_take_none_away(text):
    assert read_advert(Advert(title="", body=text), WORDS).quantity_available == 20


@pytest.mark.parametrize(
    ("body", "count"),
    [
        ("We bought 12 panels 400 W and fitted 8, the rest £40 each", 4),
        ("12 Module 400 W gekauft, 8 verbaut. Der Rest je 40 €", 4),
        ("12 panelen 400 W gekocht, 8 geplaatst, de rest 40 euro per stuk", 4),
        ("12 panneaux 400 W, 8 installés, le reste 40 € pièce", 4),
        ("Compré 12 placas 400 W, instalé 8, el resto a 40 € cada una", 4),
        ("Kupiłem 12 paneli 400 W, zamontowałem 8, reszta po 150 zł", 4),
        ("Købte 12 paneler 400 W, monterede 8, resten 300 kr. stykket", 4),
        ("12 panels 400 W, 8 used, the rest new, £40 each", 12),
        ("12 panels 400 W, used 8 years, the rest of the roof is new, £40 each", 12),
        ("12 Module 400 W, davon 8 mit Kratzern, Rest einwandfrei, je 40 €", 12),
    ],
)
def test_the_rest_of_those_that_the_seller_used(body, count):
    assert read_advert(Advert(title="", body=body), WORDS).quantity_available == count
