"""Resistance of d.c. leads."""

import pytest

from service.core.energy import lead_resistance_ohm


@pytest.mark.parametrize(
    ("section_mm2", "ohm_per_km"),
    # IEC 60228 class 5, plain copper, 20 C, as two public cable pages print it
    [(1.0, 19.5), (1.5, 13.3), (4, 4.95)],
)
def test_both_cores_of_a_lead_resist(section_mm2, ohm_per_km):
    assert lead_resistance_ohm(500, section_mm2) == pytest.approx(ohm_per_km)


def test_thicker_always_resists_less():
    sections = [0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 16, 25, 50]
    resistances = [lead_resistance_ohm(10, section) for section in sections]
    assert resistances == sorted(resistances, reverse=True)


def test_no_lead_no_resistance():
    assert lead_resistance_ohm(0, 4) == 0
