"""How many panels an inverter needs, or people a set, is no least number of what is sold."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def least(title: str, body: str) -> tuple[int | None, bool]:
    reading = read_advert(Advert(title=title, body=body), WORDS)
    return reading.least_quantity, "minimum_order" in reading.doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Micro inverter 800 W", "£80. Needs at least two panels."),
        ("Mikrowechselrichter 800 W", "80 €. Mindestens 2 Module anschließbar."),
        ("Micro-omvormer 800 W", "80 €. Minimaal 2 panelen aansluiten."),
        ("Micro-onduleur 800 W", "80 €. Pour au moins 2 panneaux."),
        ("Microinversor 800 W", "80 €. Mínimo 2 paneles."),
        ("Microinverter 800 W", "80 €. Minimo 2 pannelli."),
        ("Mikroinwerter 800 W", "300 zł. Minimum 2 panele."),
        ("Microinversor 800 W", "80 €. No mínimo 2 painéis."),
        ("Mikroměnič 800 W", "2000 Kč. Minimálně 2 panely."),
        ("Mikroinverter 800 W", "500 kr. Mindst 2 paneler."),
        ("Solar set: 2 panels 400 W and inverter 800 W", "£250 the set. Bring at least two people."),
    ],
)
def test_least_numbers_of_other_things_bind_nobody(title: str, body: str) -> None:
    assert least(title, body) == (None, False)


@pytest.mark.parametrize(
    ("title", "body", "number"),
    [
        ("5 Mikrowechselrichter 800 W", "Mindestabnahme 2 Stück, je 80 €.", 2),
        ("6 micro inverters 800 W", "£60 each, at least 3 inverters.", 3),
        ("6 micro inverters 800 W", "£60 each, minimum order 3.", 3),
        ("Complete sets: two 400 W panels and an 800 W micro inverter", "£200 per set, min. 2 sets.", 2),
        ("10 solar panels 300 W", "£40 each, minimum 4 panels.", 4),
    ],
)
def test_those_of_what_is_sold_bind(title: str, body: str, number: int) -> None:
    assert least(title, body) == (number, True)
