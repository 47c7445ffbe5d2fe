"""The year of the whole set: account, months, limit, downtime, several arrays and inputs."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import LOSSES, array_conditions, energy_year
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions
from service.core.model.place import Cover, Overhang, Plane
from service.core.panel import cell_temperature_c, diode_of, max_power
from service.core.sky import plane_light
from tests.builders import array, inverter, money, one_input, panel, setup
from tests.climates import climate
from tests.kernel_cases import typical
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
NOTHING_ASSUMED = Assumptions.of(())


def year(**changes):
    return energy_year(setup(**changes), SKY, climate(), NOTHING_ASSUMED)


BASE = year()


def test_light_less_all_losses_is_what_reaches_the_socket():
    assert BASE.light_kwh - sum(BASE.lost_kwh.values()) == pytest.approx(BASE.year_kwh.middle, abs=1e-9)
    assert tuple(BASE.lost_kwh) == LOSSES


def test_light_is_rated_power_in_all_the_light_on_the_bare_planes():
    tilted = year(arrays=(array(plane=Plane(tilt_deg=0, azimuth_deg=180), mount="flat_roof"),))
    assert tilted.light_kwh == pytest.approx(0.440 * SKY.ghi_w_per_m2.sum() / 1000, rel=0.01)


def test_months_and_arrays_add_up_to_the_year():
    assert sum(BASE.months_kwh) == pytest.approx(BASE.year_kwh.middle)
    assert sum(one.year_kwh for one in BASE.arrays) == pytest.approx(BASE.year_kwh.middle)
    assert BASE.ac_w.sum() / 1000 == pytest.approx(BASE.year_kwh.middle)


def test_months_follow_the_wall_clock():
    july = BASE.ac_w[SKY.calendar.month == 7].sum() / 1000
    assert BASE.months_kwh[6] == pytest.approx(july)


def test_kinds_of_days_hold_the_whole_year():
    assert sum(kind.days for kind in BASE.day_kinds) == 365
    total = sum(kind.days * sum(kind.ac_w) for kind in BASE.day_kinds) / 1000
    assert total == pytest.approx(BASE.year_kwh.middle, rel=0.005)


def test_the_band_is_ordered_around_the_middle():
    assert BASE.year_kwh.cautious < BASE.year_kwh.middle < BASE.year_kwh.hopeful


def test_snow_takes_from_a_leaning_panel_what_an_upright_one_keeps():
    """Munich: at 28 degrees losses of 0.3 to 2.7 % of a year were measured (from memory)."""
    sky = typical(48.1, 11.6)
    upright, leaning = (
        energy_year(
            setup(arrays=(array(plane=Plane(tilt_deg=tilt, azimuth_deg=180)),)), sky, climate(), NOTHING_ASSUMED
        )
        for tilt in (90, 28)
    )
    assert upright.lost_kwh["snow"] == pytest.approx(0, abs=1e-9)
    assert 0.003 < leaning.lost_kwh["snow"] / leaning.light_kwh < 0.027
    assert leaning.light_kwh - sum(leaning.lost_kwh.values()) == pytest.approx(leaning.year_kwh.middle, abs=1e-9)
    bare = energy_year(
        setup(arrays=(array(plane=leaning.arrays[0].plane),)), replace(sky, snow_share=None), climate(), NOTHING_ASSUMED
    )
    lost_at_the_socket = (bare.year_kwh.middle - leaning.year_kwh.middle) / bare.year_kwh.middle
    assert lost_at_the_socket == pytest.approx(leaning.lost_kwh["snow"] / leaning.light_kwh, rel=0.25)
    assert "snow" in {part.code for part in leaning.spread}
    assert "snow" not in {part.code for part in bare.spread}


def test_downtime_comes_after_the_limit():
    """Ten per cent of the year off takes ten per cent of what is left after clipping."""
    small = inverter(set_limit_w=300)
    on, off = (year(inverter=small, downtime_days_per_year=days) for days in (0, 36.5))
    assert off.year_kwh.middle == pytest.approx(0.9 * on.year_kwh.middle)
    assert off.lost_kwh["clipped"] == pytest.approx(on.lost_kwh["clipped"])
    assert off.lost_kwh["downtime"] == pytest.approx(0.1 * on.year_kwh.middle)


def test_hours_at_the_limit_are_those_in_which_it_cuts():
    limited = year(inverter=inverter(set_limit_w=300), downtime_days_per_year=0)
    assert limited.hours_at_limit == np.count_nonzero(limited.ac_w >= 300) > 0
    assert limited.ac_w.max() == 300


def test_a_set_limit_above_the_rating_is_the_rating():
    strong = (array(count=3, plane=Plane(tilt_deg=35, azimuth_deg=180)),)
    wide = (one_input(max_input_voltage_v=200, tracking_max_v=200),) * 2
    over = year(arrays=strong, inverter=inverter(set_limit_w=2000, inputs=wide))
    assert over.ac_w.max() <= 800


def test_two_inputs_are_cut_by_their_sum():
    """East and west under 500 W: apart each would stay under it, together they are cut less than one plane twice."""
    east, west = (
        array(name=n, input=i, plane=Plane(tilt_deg=30, azimuth_deg=a)) for n, i, a in (("e", 1, 90), ("w", 2, 270))
    )
    small = inverter(set_limit_w=400)
    apart = year(arrays=(east, west), inverter=small)
    together = year(arrays=(east, replace(east, name="e2", input=2)), inverter=small)
    assert 0 < apart.lost_kwh["clipped"] < together.lost_kwh["clipped"]


def test_old_panels_give_half_a_per_cent_less_for_each_year():
    """Compound: 0.95111 after ten years of 0.5 %, by hand."""
    old = year(arrays=(array(panel=panel(age_years=10)),), downtime_days_per_year=0)
    new = year(arrays=(array(),), downtime_days_per_year=0)
    assert sum(old.dc_w).sum() / sum(new.dc_w).sum() == pytest.approx(0.95111, abs=0.001)
    assert old.lost_kwh["ageing"] == pytest.approx(0.04889 * (new.light_kwh - lost_until_power(new)), rel=1e-3)


def lost_until_power(one):
    return sum(one.lost_kwh[c] for c in LOSSES[: LOSSES.index("ageing")])


def test_the_rate_of_ageing_is_the_requests_own():
    kept = year(arrays=(array(panel=panel(age_years=10)),), money=money(ageing_share_per_year=0))
    assert kept.lost_kwh["ageing"] == 0


@pytest.mark.parametrize(
    ("code", "changes"),
    [
        ("dirt", {"dirt_share": 0.1}),
        ("mismatch", {"mismatch_share": 0.05}),
        ("leads", {"lead_length_m": 20, "lead_mm2": 1.5}),
        ("overhang", {"overhang": Overhang(above_top_edge_m=0.3, reaches_out_m=1.2)}),
    ],
)
def test_each_loss_is_booked_where_it_happens(code, changes):
    clean = array(dirt_share=0, lead_length_m=0)
    base, changed = year(arrays=(clean,)), year(arrays=(replace(clean, **changes),))
    assert base.lost_kwh[code] == pytest.approx(0, abs=1e-9)
    assert changed.lost_kwh[code] > 1
    assert changed.year_kwh.middle < base.year_kwh.middle


@pytest.mark.parametrize("dirt_share", [0.02, 0.2])
def test_dirt_passes_the_rest_of_the_light_and_no_less(dirt_share):
    """A layer that takes a share d leaves 1 - d: the panel works as in so much less light at equally warm cells."""
    one = array(dirt_share=dirt_share, lead_length_m=0)
    light = plane_light(SKY, one, 0.2)
    cells = cell_temperature_c(light.after_cover_w_per_m2, SKY.air_c, SKY.wind_m_per_s, one.mount)
    expected = max_power(diode_of(one.panel), (1 - dirt_share) * light.effective_w_per_m2, cells).power_w
    wide = inverter(inputs=(one_input(tracking_min_v=1, tracking_max_v=100, start_voltage_v=1),) * 2)
    assert year(arrays=(one,), inverter=wide).dc_w[0] == pytest.approx(expected, rel=1e-6)


def test_lead_loss_is_current_squared_times_resistance_there_and_back():
    """20 m of 1.5 mm2: 0.532 ohm (IEC 60228 class 5). The panel yields a little to it, so a bit less than I^2 R."""
    bare = year(arrays=(array(dirt_share=0, lead_length_m=0),))
    led = year(arrays=(array(dirt_share=0, lead_length_m=20, lead_mm2=1.5),))
    current = bare.dc_w[0] / 32.0
    assert led.lost_kwh["leads"] == pytest.approx(float((current**2).sum()) * 0.532 / 1000, rel=0.06)


@pytest.mark.parametrize(("joined", "times"), [("series", 1), ("parallel", 4)])
def test_a_lead_bears_the_current_of_all_its_strings(joined, times):
    """Two panels in series load the lead with one panel's current, two in parallel with twice that."""
    wide = inverter(inputs=(one_input(tracking_min_v=5, tracking_max_v=200, start_voltage_v=5, max_current_a=60),) * 2)
    one = year(arrays=(array(lead_length_m=5),), inverter=wide).lost_kwh["leads"]
    two = year(arrays=(array(lead_length_m=5, count=2, joined=joined),), inverter=wide).lost_kwh["leads"]
    assert two == pytest.approx(times * one, rel=0.05)


def test_the_light_behind_the_cover_and_before_the_glass_warms_the_cells():
    """Worked here by Faiman's formula with the rail's pair, 20 and 5.42; air 15 C and wind 2 m/s all year."""
    covered = array(cover=Cover(material="glass", light_through_share=0.7))
    light = plane_light(SKY, covered, 0.2).after_cover_w_per_m2
    by_hand = 15 + light.max() / (20 + 5.42 * 2)
    assert array_conditions(setup(arrays=(covered,)), SKY)[0].hottest_cell_c == pytest.approx(by_hand)


def test_a_hot_wall_costs_energy_as_heat():
    rail, wall = (year(arrays=(array(mount=mount),)) for mount in ("ground_frame", "wall"))
    assert wall.lost_kwh["heat_and_light"] > rail.lost_kwh["heat_and_light"]
    assert wall.arrays[0].hottest_cell_c > rail.arrays[0].hottest_cell_c


def test_limits_of_the_input_are_booked_apart():
    narrow = inverter(inputs=(one_input(max_current_a=6),) * 2)
    assert year(inverter=narrow).lost_kwh["current_limit"] > 1
    high = inverter(inputs=(one_input(tracking_min_v=33),) * 2)
    assert year(inverter=high).lost_kwh["voltage_window"] > 1
    weak = inverter(inputs=(one_input(max_input_power_w=200),) * 2)
    assert year(inverter=weak).lost_kwh["power_limit"] > 1


def test_a_start_voltage_out_of_reach_gives_nothing_and_counts_the_hours():
    deaf = inverter(inputs=(one_input(start_voltage_v=50),) * 2)
    none = year(inverter=deaf)
    assert none.year_kwh.middle == 0
    assert none.arrays[0].hours_not_started > 4000
    assert none.light_kwh - sum(none.lost_kwh.values()) == pytest.approx(0, abs=1e-9)


def test_arrays_on_one_input_share_its_voltage_and_limits():
    left = array(input=1)
    right = array(name="right", input=1, plane=Plane(tilt_deg=90, azimuth_deg=240))
    wide, narrow = (inverter(inputs=(one_input(max_current_a=most),) * 2) for most in (30, 10))
    shared, apart = (
        year(arrays=(left, right), inverter=wide),
        year(arrays=(left, replace(right, input=2)), inverter=wide),
    )
    assert 0 < shared.lost_kwh["mismatch"] < 0.01 * shared.year_kwh.middle
    assert shared.year_kwh.middle < apart.year_kwh.middle
    assert year(arrays=(left, right), inverter=narrow).lost_kwh["current_limit"] > 0
    for one in (shared, apart):
        assert one.light_kwh - sum(one.lost_kwh.values()) == pytest.approx(one.year_kwh.middle, abs=1e-9)


def test_night_draw_is_reported_apart():
    drawing = year(inverter=inverter(night_draw_w=1))
    assert drawing.year_kwh == BASE.year_kwh
    assert 3.5 < drawing.night_draw_kwh < 5.5


def test_an_array_on_an_input_that_is_not_there_is_refused_where_it_stands():
    with pytest.raises(ContradictionError) as caught:
        year(arrays=(array(), array(name="right", input=3)))
    assert caught.value.pointer == "/arrays/1/input"
    assert caught.value.accepted == "1 to 2"


def test_a_sheet_that_makes_no_curve_is_refused_where_it_stands():
    with pytest.raises(ContradictionError) as caught:
        year(arrays=(array(), array(input=2, panel=panel(max_power_voltage_v=45))))
    assert caught.value.pointer == "/arrays/1/panel/max_power_voltage_v"


def test_more_power_than_voltage_and_current_can_give_is_refused_where_it_stands():
    with pytest.raises(ContradictionError) as caught:
        year(arrays=(array(), array(input=2, panel=panel(rated_power_w=600))))
    assert caught.value.pointer == "/arrays/1/panel/rated_power_w"
    assert "511 W" in caught.value.accepted  # 0.92 x 39.4 V x 14.1 A


def test_conditions_for_compatibility_are_the_years_own():
    cheap = array_conditions(setup(), SKY)
    assert [one.hottest_cell_c for one in cheap] == [one.hottest_cell_c for one in BASE.arrays]


def test_series_of_hours_cannot_be_changed_by_their_reader():
    with pytest.raises(ValueError, match="read-only"):
        BASE.ac_w[0] = 1


def test_volts_and_amperes_that_make_another_power_than_the_label_are_refused_and_never_flatter():
    misread = array(panel=panel(rated_power_w=410, max_power_voltage_v=32.9, max_power_current_a=13.9))
    with pytest.raises(ContradictionError) as caught:
        year(arrays=(misread,))
    assert caught.value.pointer == "/arrays/0/panel/max_power_current_a"
    assert caught.value.example == pytest.approx(410 / 32.9, abs=0.01)
    rounded = array(panel=panel(rated_power_w=430))  # 440.2 W by its volts and amperes: a label's rounding and more
    assert year(arrays=(rounded,)).year_kwh.middle > 0
