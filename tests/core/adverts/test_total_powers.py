"""Watts that no single panel has: those of all panels together, or a mistake. They are asked about, not divided."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("8 solar panels", "3000 W in all, £320 for the lot"),
        ("8 Solarmodule", "zusammen 3000 Wp, 320 € für alle"),
        ("8 zonnepanelen", "totaal 3000 Wp, 320 euro voor alles"),
        ("8 panneaux solaires", "3000 Wc au total, 320 € le tout"),
        ("8 placas solares", "3000 W en total, 320 € todo"),
        ("8 pannelli", "3000 W in totale, 320 € tutto"),
        ("8 paneli", "łącznie 3000 W, 1400 zł za całość"),
        ("8 painéis", "3000 W no total, 320 € tudo"),
        ("8 panelů", "celkem 3000 W, 8000 Kč za vše"),
        ("8 solpaneler", "3000 W i alt, 2400 kr for alle"),
        ("8 Solarmodule", "3,00 kWp, 320 € für alle"),
        ("2 Solarmodule", "860 Wp, 120 €"),
    ],
)
def test_the_power_of_all_is_not_shared_by_the_panels(title, body):
    read = reading_of(title, body)
    assert "rated_power_w" not in read.panel
    assert "power_of_several" in read.doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solarmodul", "3000 Wp, neu, 50 €"),
        ("Solar panel", "2400 W, £50"),
        ("Solarmodule", "Module 3000 Wp, 320 €"),  # how many?
        ("50 panneaux solaires", "1000 Wc, 20 € pièce"),  # twenty watts each?
        ("4 solar panels", "1200 W each, £50 each"),
    ],
)
def test_watts_of_no_panel_that_cannot_be_shared_raise_a_doubt(title, body):
    read = reading_of(title, body)
    assert "rated_power_w" not in read.panel
    assert "power_of_several" in read.doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("20 Solarmodule", "aus einer 7500 W Anlage, 20 € das Stück"),
        ("8 solar panels", "Were on my inverter for years, 3000 W, £20 each"),
        ("8 solar panels", "They ran a 3000 W inverter, £20 each"),
        ("8 Module, 3,3 kWp", "20 € das Stück"),  # rounded: 410 or 415 W
        ("8 Module, 3,2 kWp", "20 € das Stück"),  # rounded: 395, 400 or 405 W
    ],
)
def test_the_power_of_other_things_and_rounded_ones_are_left_out(title, body):
    read = reading_of(title, body)
    assert "rated_power_w" not in read.panel
    assert "power_of_several" not in read.doubts


def test_a_power_of_one_panel_stays_where_another_power_is_told():
    read = reading_of("3 zonnepanelen 375 W gebruikt", "Nu 900 W, 40 euro per stuk")
    assert (read.panel["rated_power_w"], "power_of_several" in read.doubts) == (375, False)


def test_a_power_of_one_panel_stands_beside_that_of_all():
    read = reading_of("8 Solarmodule", "8 Module 375 Wp, zusammen 3000 Wp, 320 € für alle")
    assert (read.panel["rated_power_w"], "power_of_several" in read.doubts) == (375, False)
