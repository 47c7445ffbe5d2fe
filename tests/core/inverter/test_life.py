"""Heat wears an inverter out sooner where it sits warm; a band and no promise."""

from typing import get_args

import pytest

from service.api.fields import Seat
from service.core.inverter import SEAT_WARMER_K, life_over_shade


@pytest.mark.parametrize("seat", get_args(Seat))
def test_every_seat_has_an_ordered_band_between_nought_and_one(seat: str) -> None:
    life = life_over_shade(seat)
    assert 0 < life.cautious <= life.middle <= life.hopeful <= 1


def test_ten_kelvin_more_halve_the_life_in_the_middle() -> None:
    warmer = SEAT_WARMER_K["behind_panel"].middle
    assert life_over_shade("behind_panel").middle == pytest.approx(0.5 ** (warmer / 10))


def test_a_closed_box_wears_sooner_than_a_place_behind_the_panel_and_that_sooner_than_the_shade() -> None:
    lives = [life_over_shade(seat).middle for seat in ("closed_box", "behind_panel", "open_shade")]
    assert lives == sorted(lives)
    assert lives[-1] == 1
