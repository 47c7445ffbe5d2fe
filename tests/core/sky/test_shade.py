from dataclasses import replace

import numpy as np
import pytest

from service.core.model.place import Shade
from service.core.sky import after_shading, sections_lost, shading_of, time_in_window

HOURS = np.arange(24.0)
JULY = np.full(24, 7, dtype=np.int64)


def shade(**changes):
    base = {
        "cause": "tree",
        "edge": "soft",
        "months": (7,),
        "from_clock": "15:00",
        "to_clock": "18:00",
        "blocked_share": 0.6,
    }
    return Shade(**(base | changes))


def left_of(total, beam, *shades, hour=16):
    shading = shading_of(shades, JULY, HOURS)
    return float(after_shading(np.full(24, float(total)), np.full(24, float(beam)), shading)[hour])


def test_hours_partly_in_the_window_count_by_their_part():
    assert time_in_window("15:15", "17:30", HOURS)[14:19].tolist() == [0.0, 0.75, 1.0, 0.5, 0.0]


def test_a_window_within_one_hour_counts_by_its_length():
    assert time_in_window("15:15", "15:30", HOURS)[15] == pytest.approx(0.25)


def test_a_window_that_ends_before_it_begins_spans_midnight():
    part = time_in_window("22:30", "02:00", HOURS)
    assert np.flatnonzero(part).tolist() == [0, 1, 22, 23]
    assert part[22] == 0.5
    assert part.sum() == pytest.approx(3.5)


@pytest.mark.parametrize("to_clock", ["00:00", "24:00"])
def test_a_whole_day_may_be_written_two_ways(to_clock):
    assert time_in_window("00:00", to_clock, HOURS).tolist() == [1.0] * 24


def test_zones_with_half_hours_are_counted_by_their_own_clock():
    assert time_in_window("15:00", "16:00", HOURS + 0.5)[14:16].tolist() == [0.5, 0.5]


def test_only_the_months_named_are_shaded():
    months = np.array([6, 7, 8], dtype=np.int64)
    through = shading_of([shade()], months, np.full(3, 16.0)).beam_through_share
    np.testing.assert_allclose(through, [1.0, 0.4, 1.0])


def test_a_soft_shadow_takes_its_share_of_the_beam_and_leaves_the_sky():
    assert left_of(900, 700, shade()) == pytest.approx(900 - 0.6 * 700)


def test_two_soft_shadows_take_their_shares_one_after_the_other():
    assert left_of(900, 700, shade(), shade(blocked_share=0.5)) == pytest.approx(200 + 700 * 0.4 * 0.5)


@pytest.mark.parametrize(("blocked", "sections"), [(0.05, 1), (1 / 3, 1), (0.4, 2), (2 / 3, 2), (0.7, 3)])
def test_a_hard_shadow_takes_whole_sections(blocked, sections):
    assert sections_lost(blocked) == sections


def test_a_hard_shadow_on_a_strip_costs_a_third_of_all_light():
    assert left_of(900, 700, shade(edge="hard", blocked_share=0.1)) == pytest.approx(600)


def test_a_hard_shadow_never_takes_more_than_the_beam():
    assert left_of(900, 700, shade(edge="hard", blocked_share=1.0)) == pytest.approx(200)
    assert left_of(300, 30, shade(edge="hard", blocked_share=0.1)) == pytest.approx(270)


def test_a_hard_shadow_takes_nothing_under_an_overcast_sky():
    assert left_of(300, 0, shade(edge="hard", blocked_share=0.9)) == 300


def test_a_hard_shadow_for_half_an_hour_costs_half_as_much():
    whole = 900 - left_of(900, 700, shade(edge="hard", blocked_share=0.1))
    half = 900 - left_of(900, 700, shade(edge="hard", blocked_share=0.1, to_clock="16:30"))
    assert half == pytest.approx(whole / 2)


def test_hard_shadows_on_two_sections_add_up():
    strip = shade(edge="hard", blocked_share=0.1)
    assert left_of(900, 700, strip, strip) == pytest.approx(300)


@pytest.mark.parametrize("blocked", [0.0, 0.2, 0.5, 0.9, 1.0])
@pytest.mark.parametrize("beam", [0, 100, 500, 900])
def test_a_hard_edge_is_never_kinder_than_a_soft_one(blocked, beam):
    hard = left_of(1000, beam, shade(edge="hard", blocked_share=blocked))
    assert hard <= left_of(1000, beam, shade(blocked_share=blocked)) + 1e-9


def test_a_shadow_of_nothing_takes_nothing():
    assert left_of(900, 700, shade(blocked_share=0.0), shade(edge="hard", blocked_share=0.0)) == 900


@pytest.mark.parametrize(("beam", "by_band"), [(500, 90), (200, 60)])
def test_a_band_takes_the_cheaper_of_two_ways(beam, by_band):
    """0.3 of the beam, or a tenth of all light."""
    none = shading_of([], JULY, HOURS)
    banded = replace(none, ways_past_bands=((0.0, np.full(24, 0.3)), (0.1, np.zeros(24))))
    assert after_shading(np.full(24, 900.0), np.full(24, float(beam)), banded) == pytest.approx(900 - by_band)


@pytest.mark.parametrize(("beam", "taken"), [(700, 210 + (900 - 210) / 3), (350, 350)])
def test_a_mast_takes_its_section_of_what_a_band_leaves_and_both_together_no_more_than_the_beam(beam, taken):
    mast = shading_of([shade(edge="hard", blocked_share=0.1)], JULY, HOURS)
    both = replace(mast, ways_past_bands=((0.0, np.full(24, 0.3)),))
    left = after_shading(np.full(24, 900.0), np.full(24, float(beam)), both)
    assert left[16] == pytest.approx(900 - taken)
    assert left[2] == pytest.approx(900 - 0.3 * beam)
