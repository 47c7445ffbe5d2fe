"""Panels of two powers, each sort with its count: no power and no count holds for all of them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 400 W and 2 panels 410 W, used, £300 for all",
        "8 x 250W and 6 x 300W panels, all used. £300 the lot.",
        "4 Module 400 W und 2 Module 410 W, alle neu. Zusammen 300 Euro.",
        "4 Module 60 Zellen 250 W, 2 Module 72 Zellen 300 W, zusammen 300 €",
        "4 panelen 400 Wp en 2 panelen 410 Wp, samen 300 euro",
        "4 panneaux de 230 W et 3 de 250 W, 300 € le tout",
        "4 placas de 230 W y 3 placas de 250 W, 300 € todo el lote",
        "4 pannelli da 400 W e 2 da 410 W, 300 € tutti",
    ],
)
def test_the_price_of_a_lot_of_two_sorts_is_not_divided_by_the_count_of_one(body):
    found = reading_of(body)
    assert (found.kind, found.quantity_available) == ("panel", None)
    assert (found.price.value, found.price.basis, found.price.each) == (300, "lot", None)
    assert "rated_power_w" not in found.panel


@pytest.mark.parametrize(
    "body",
    [
        "4 panele 400 W i 2 panele 410 W, 90 zł/szt",
        "4 panely 400 W a 2 panely 410 W, 90 Kč kus",
        "Jeg har 4 stk 300 W og 2 stk 350 W paneler, 90 kr. stk.",
        "4 painéis de 330 W e 2 de 340 W, 90 € cada",
    ],
)
def test_a_price_of_each_stays_that_of_each(body):
    found = reading_of(body)
    assert (found.quantity_available, found.price.each) == (None, 90)
    assert "rated_power_w" not in found.panel


@pytest.mark.parametrize(
    ("body", "count"),
    [
        ("6 painéis: 4 de 330 W e 2 de 340 W, 30 € cada", 6),
        ("Five panels: 3 of 400 W and 2 of 410 W, £30 each", 5),
        ("12 placas usadas, unas de 230 W y otras de 250 W, a 15 € cada una.", 12),
        ("12 panels, some of 230 W, the others of 250 W, £15 each", 12),
    ],
)
def test_a_sum_that_is_told_is_the_count(body, count):
    found = reading_of(body)
    assert found.quantity_available == count
    assert "rated_power_w" not in found.panel


@pytest.mark.parametrize(
    ("body", "kind", "power", "count"),
    [
        ("1 panel 400 W £50, 4 panels 400 W £180", "panel", 400, 4),
        ("4 Module 400 W, zusammen 1600 W, je 30 €", "panel", 400, 4),
        ("2 Module 430 W und 1 Wechselrichter 800 W, zusammen 250 €", "set", 430, 1),
        ("20 used panels 250 W, 60 cells, NOCT 185 W, £20 each", "panel", 250, 20),
    ],
)
def test_one_sort_with_other_figures_beside_it_keeps_both(body, kind, power, count):
    found = reading_of(body)
    assert (found.kind, found.quantity_available, found.panel["rated_power_w"]) == (kind, count, power)
