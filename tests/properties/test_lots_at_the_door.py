"""Lots at the door: over many visits, how often is a sound panel accused for its neighbours, and a faulty one missed?

Sound panels of one type differ by a standard deviation of 1.8 % in current and 0.8 % in voltage, as labels of 3 to 5 %
(two of these) have them with a meter and the light of some minutes; the light is measured with 7.5 %.
"""

from random import Random

import pytest

from service.core.pickup import PanelReading, Seen, expected_at, panels_seen
from tests.core.pickup.door import door, measured, reading

VISITS = 250
# Faults and strangers: what they do to volts and amperes.
ODD = {"weak": (1.0, 0.75), "section lost": (2 / 3, 1.0), "more current": (1.0, 1.35), "72 cells": (1.2, 1.0)}


def visit(chance: Random, odd: str, size: int, many: int) -> tuple[list[PanelReading], float]:
    """A lot of ``size`` of which the first ``many`` are odd, in any order, and the light that was measured."""
    light = chance.uniform(400.0, 900.0)
    sound = expected_at(door(measured(light), cell_c=35.0))
    assert sound.voltage is not None
    assert sound.current is not None
    lot = []
    for number in range(size):
        volts, amperes = ODD[odd] if number < many else (1.0, 1.0)
        volts *= sound.voltage.likely * chance.gauss(1.0, 0.008)
        amperes *= sound.current.likely * chance.gauss(1.0, 0.018)
        lot.append(
            reading(f"{'odd' if number < many else 'sound'} {number}", voc=round(volts, 1), isc=round(amperes, 2))
        )
    chance.shuffle(lot)
    return lot, light * chance.gauss(1.0, 0.075)


@pytest.mark.parametrize("odd", ODD)
@pytest.mark.parametrize(("size", "many"), [(2, 1), (3, 1), (5, 1), (5, 2), (4, 2), (5, 3)])
def test_the_odd_ones_are_told_and_the_sound_ones_are_not(odd: str, size: int, many: int) -> None:
    """A range holds 95 of 100 sound panels; light that was misread by two deviations accuses a whole lot at once."""
    chance, accused, missed = Random(f"{odd} {size} {many}"), 0, 0
    for _ in range(VISITS):
        lot, light = visit(chance, odd, size, many)
        for seen in panels_seen(door(measured(light, 0.15), cell_c=35.0), lot):
            if seen.panel.startswith("sound"):
                accused += seen.verdict is Seen.SUSPICIOUS
            else:
                missed += seen.verdict is Seen.AS_EXPECTED
    assert accused <= 0.08 * VISITS * (size - many)
    assert missed <= 0.05 * VISITS * many
