"""Panels of two powers in one lot: no single power holds for all of them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def power_of(body):
    return read_advert(Advert(title="", body=body), WORDS).panel.get("rated_power_w")


@pytest.mark.parametrize(
    "body",
    [
        "Around 30 panels, mix of 245 and 260 W, poly. £450 the lot",
        "8x 240 W and 4x 250 W panels, £20 each",
        "20 Module, teils 225 W, teils 240 W, je 15 €",
        "Module 270 und 280 W, je 15 €",
        "12 Module 235 bis 250 W, je 20 €",
        "12 panelen van 235 en 245 Wp, 20 euro per stuk",
        "12 panneaux 240 et 250 Wc, 20 € pièce",
        "12 placas de 240 y 250 W, 20 € cada una",
        "12 pannelli misti, 240 W, 250 W, 20 € l'uno",
        "12 paneli 240 i 250 W, 80 zł sztuka",
        "12 painéis de 240 ou 250 W, 20 € cada",
        "12 panelů 240 a 250 W, 400 Kč kus",
        "12 paneler, dels 240, dels 250 W, 150 kr stk",
    ],
)
def test_two_powers_of_one_lot_are_that_of_no_panel(body):
    assert power_of(body) is None


@pytest.mark.parametrize(
    "body",
    [
        "10 panels, 250 W, £20 each",
        "Panels with 60 cells and 250 W, £20 each",
        "Module 35 x 99 und 250 W, je 20 €",
        "4 Module je 250 W, zusammen 1000 W, 80 €",
        "Mixed lot of 20, panels 250 W, £20 each",
        "Panel 250 W (250 Wp), 20 € each",
    ],
)
def test_other_figures_beside_a_power_are_none(body):
    assert power_of(body) == 250
