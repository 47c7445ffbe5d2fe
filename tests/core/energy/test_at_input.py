"""What untold limits, volts and joining do to a year is what the chain gives with either end, and nothing far off."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import direct_current, energy_year
from service.core.energy.at_input import at_input
from service.core.energy.hour_moves import HourMoves, moves_of
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.band import Z_90
from service.core.model.place import Plane
from tests.builders import array, inverter, one_input, panel, setup
from tests.climates import climate
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
SUNNY = Plane(tilt_deg=35, azimuth_deg=180)
SMALL = panel(
    rated_power_w=100, open_circuit_voltage_v=22.4, short_circuit_current_a=5.8, max_power_voltage_v=18.2,
    max_power_current_a=5.5, cells_in_series=36,
)  # fmt: skip
LIMITS = one_input(tracking_min_v=16, tracking_max_v=55, start_voltage_v=21.2, max_current_a=14)
WINDOW = {"/inverter/inputs/0/tracking_min_v": (13.6, 28.0), "/inverter/inputs/0/start_voltage_v": (16.0, 30.0)}


def made(one=SMALL, limits=LIMITS, **changes):
    return setup(
        arrays=(array(input=1, plane=SUNNY, panel=one, **changes),), inverter=inverter(inputs=(limits,), input_count=1)
    )


def untold(ranges):
    return Assumptions.of(
        Assumption(pointer=pointer, value=None, code="test", source="test", low=ends[0], high=ends[1])
        for pointer, ends in ranges.items()
    )


def dc_w(one):
    return np.sum([hours.dc_w for hours in direct_current(one, SKY)], axis=0)


def moves(one, ranges):
    asked = []

    def counted(changed):
        asked.append(changed)
        return dc_w(changed)

    found = HourMoves()
    for group in at_input(one, untold(ranges), counted):
        found = found + moves_of(one, dc_w(one), group)
    return found, asked


def test_the_ends_of_a_window_that_nobody_told_are_what_the_chain_gives_for_them():
    own = dc_w(made()).sum()
    wide = dc_w(made(limits=replace(LIMITS, tracking_min_v=13.6, start_voltage_v=16))).sum()
    found, asked = moves(made(), WINDOW)
    assert wide > 1.05 * own > 0
    assert found.sd_share == pytest.approx((1 / Z_90, (wide / own - 1) / Z_90))  # above 28 V a 22 V panel gives nothing
    assert len(asked) == 2


def test_far_from_its_limits_nothing_is_asked():
    usual = {**WINDOW, "/inverter/inputs/0/tracking_max_v": (45, 60), "/inverter/inputs/0/max_current_a": (10.5, 18)}
    found, asked = moves(made(panel()), usual)
    assert (found.sd_share, asked) == ((0, 0), [])


@pytest.mark.parametrize("amperes", [11.5, 12.5, 13.4])
@pytest.mark.parametrize("volts", [50, 53, 54, 55, 56, 58, 62, 66])
def test_what_a_lower_current_takes_is_asked_where_it_takes_more_than_a_hundredth(volts, amperes):
    """Two in series above the window's end gave up to 18 % less, unasked below 1.3 times the least limit."""
    one = panel(
        rated_power_w=volts * amperes / 2, max_power_voltage_v=volts / 2, open_circuit_voltage_v=volts / 1.66,
        max_power_current_a=amperes, short_circuit_current_a=1.06 * amperes, cells_in_series=round(volts / 1.15),
    )  # fmt: skip
    limits = replace(LIMITS, max_input_voltage_v=90)
    taken, low = (made(one, replace(limits, max_current_a=most_a), count=2) for most_a in (14, 10.5))
    found, _ = moves(taken, {"/inverter/inputs/0/max_current_a": (10.5, 18)})
    assert 1 - dc_w(low).sum() / dc_w(taken).sum() <= Z_90 * found.sd_share[0] + 0.01


def test_the_volts_of_a_sheet_move_together_and_keep_the_power():
    names = ("open_circuit_voltage_v", "max_power_voltage_v", "short_circuit_current_a", "max_power_current_a")
    ranges = {f"/arrays/0/panel/{name}": (0.9 * getattr(SMALL, name), 1.1 * getattr(SMALL, name)) for name in names}
    found, asked = moves(made(), ranges)
    assert all(
        one.arrays[0].panel.max_power_voltage_v * one.arrays[0].panel.max_power_current_a == pytest.approx(18.2 * 5.5)
        for one in asked
    )
    volts = sorted(one.arrays[0].panel.open_circuit_voltage_v / 22.4 for one in asked)
    assert volts == pytest.approx([0.9, 1 / 0.9])
    assert min(found.sd_share) > 0.02


def test_another_way_of_joining_is_asked_of_more_than_one_panel_alone():
    both = {"/arrays/0/joined": (None, None)}
    assert moves(made(panel()), both)[1] == []
    [asked] = moves(made(panel(), count=2, joined="series"), both)[1]
    assert asked.arrays[0].joined == "parallel"


def test_the_band_holds_what_either_end_gives():
    def year(one, ranges):
        return energy_year(one, SKY, climate(), untold(ranges)).year_kwh

    band = year(made(), WINDOW)
    for low, start in ((13.6, 16), (28, 30)):
        told = year(made(limits=replace(LIMITS, tracking_min_v=low, start_voltage_v=start)), {}).middle
        assert band.cautious - 1e-6 <= told <= band.hopeful
    assert band.middle == year(made(), {}).middle
