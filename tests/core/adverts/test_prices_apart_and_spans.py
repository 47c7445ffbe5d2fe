"""Each of two articles has its own price, a span is none, and a part of one behind a figure belongs to it."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "inverter", "panel"),
    [
        ("Inverter 600 W £70, panels 300 W £40 each, sold separately.", 70, 40),
        ("Einzeln abzugeben: Wechselrichter 800 W 90 Euro, Module 400 W je 60 Euro.", 90, 60),
        ("Onduleur 600 W 70 euros, panneaux 300 W 40 euros pièce, vendus séparément.", 70, 40),
        ("Por separado: inversor 800 W 90 euros, placas 400 W 60 euros cada una.", 90, 60),
        ("Separatamente: pannelli 300 W 40 euro l'uno, inverter 600 W 70 euro.", 70, 40),
    ],
)
def test_each_article_has_its_own_price(body, inverter, panel):
    reading = reading_of(body)
    assert reading.price.value in {None, {"inverter": inverter, "panel": panel}[reading.kind]}


@pytest.mark.parametrize(
    "body",
    [
        "Panels 300 W. Between 40 and 60 each depending on condition.",
        "Module 300 W, zwischen 40 und 60 Euro je Stück.",
        "Panneaux 300 W, entre 40 et 60 euros pièce selon état.",
        "Placas 300 W, entre 40 y 60 euros cada una.",
        "Pannelli 300 W, tra 40 e 60 euro l'uno.",
        "Zonnepanelen 300 W, tussen 40 en 60 euro per stuk.",
        "Panele 300 W, między 100 a 150 zł za sztukę.",
        "Panely 300 W, mezi 900 a 1200 Kč za kus.",
        "Solpaneler 300 W, mellem 300 og 400 kr. stykket.",
        "Painéis 300 W, entre 40 e 60 euros cada.",
        "Panels 300 W, £40-60 each depending on condition.",
        "Module 300 W, je nach Zustand 40 bis 60 Euro das Stück.",
    ],
)
def test_a_span_is_no_price(body):
    assert reading_of(body).price.value is None


@pytest.mark.parametrize(
    "body",
    [
        "Panels 300 W between 5 and 7 years old, £40 each.",
        "Panels 300 W, £40 each, between £5 and £10 postage depending on distance.",
        "Panels 300 W, call between 6 and 8. £40 each.",
    ],
)
def test_other_spans_leave_the_price(body):
    assert reading_of(body).price.each == 40


@pytest.mark.parametrize(
    ("body", "amperes"),
    [
        ("Panel 400 W, Isc 13 1/2 A. £40.", 13.5),
        ("Panel 400 W, Isc 13 3/4 A. £40.", 13.75),
        ("Panel 400 W, Isc 13 A. Needs a 1/2 inch bolt. £40.", 13),
    ],
)
def test_a_part_of_one_behind_a_figure_belongs_to_it(body, amperes):
    assert reading_of(body).panel["short_circuit_current_a"] == amperes


def test_a_date_is_no_part_of_a_figure():
    assert reading_of("Panel 400 W, £40. Bought 13 1/2/2020, 10 A.").panel == {"rated_power_w": 400}
