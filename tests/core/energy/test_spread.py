"""Why a year is uncertain: each reason appears when it applies, and grows with its cause."""

import pytest

from service.api.words.english import losses, spread
from service.core.energy import LOSSES, OfLight, spread_of
from service.core.energy.spread import AT_INPUT, by_clouds_share
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.band import SpreadPart, ends_of
from service.core.model.place import Cover, Plane, Shade, SkylinePoint
from tests.builders import array, panel
from tests.climates import climate

TREE = Shade(cause="tree", edge="soft", months=(6,), from_clock="15:00", to_clock="18:00", blocked_share=0.6)
FLAT = Plane(tilt_deg=0, azimuth_deg=180)


def parts(*arrays, hidden=0.0, assumed=()):
    given = Assumptions.of(Assumption(pointer=p, value=None, code="test", source="test") for p in assumed)
    found = spread_of(arrays, [300.0] * len(arrays), [OfLight(hidden_share=hidden)] * len(arrays), climate(), given)
    return {part.code: part.relative_sd_share for part in found}


def test_climate_and_years_come_from_the_place():
    assert parts(array())["climate_data"] == 0.05
    assert parts(array())["year_to_year"] == 0.025


def test_what_the_clouds_move_more_on_a_plane_widens_table_and_years_but_not_given_weather():
    none = Assumptions.of(())
    table, given = (
        {
            part.code: part.relative_sd_share
            for part in spread_of([array()], [300.0], [OfLight(weather_moves=1.4)], place, none)
        }
        for place in (climate(), climate(light_from="given"))
    )
    assert table["climate_data"] == pytest.approx(1.4 * 0.05)
    assert table["year_to_year"] == given["year_to_year"] == pytest.approx(1.4 * 0.025)
    assert given["given_weather"] == 0.05


def test_the_clouds_part_of_a_spread_is_that_of_table_and_years():
    assert by_clouds_share([]) == (0, 0)
    assert by_clouds_share([SpreadPart("year_to_year", 0.1)]) == (1, 1)
    half = SpreadPart("given_weather", 0.1), SpreadPart("year_to_year", 0.1)
    assert by_clouds_share(half) == pytest.approx((0.5, 0.5))


def test_what_only_takes_light_away_leaves_the_brighter_year_to_the_clouds():
    parts = SpreadPart("climate_data", 0.03), SpreadPart("shade", 0.04, 0.0)
    assert by_clouds_share(parts) == pytest.approx((0.36, 1.0))


def test_shade_is_a_reason_only_where_something_stands_around():
    assert "shade" not in parts(array())
    assert parts(array(shade=(TREE,)), hidden=0.2)["shade"] == pytest.approx(0.05)
    assert parts(array(skyline=(SkylinePoint(azimuth_deg=90, height_deg=5),)))["shade"] == pytest.approx(0.02)


def test_a_plane_that_was_told_is_no_reason():
    assert "plane" not in parts(array())


def test_a_leaning_panel_on_a_rail_of_unknown_side_is_nearly_as_wide_as_an_upright_one():
    sides = [
        parts(array(mount=mount, plane=Plane(tilt_deg=tilt, azimuth_deg=180)), assumed=["/arrays/0/plane/azimuth_deg"])
        for mount, tilt in (("wall", 90), ("wall", 70), ("sloped_roof", 35), ("ground_frame", 70))
    ]
    upright, leaning, roof, chosen = (found["plane"] for found in sides)
    assert upright == 0.10
    assert 0.09 < leaning < upright
    assert 0.05 < roof < 0.07
    assert chosen == 0.03


def test_a_mount_that_nobody_told_only_cools_where_both_angles_were():
    open_mount = Assumptions.of([Assumption(pointer="/arrays/0/mount", value=None, code="test", source="test")])
    found = spread_of([array()], [300.0], [OfLight(cooled=(0.04, 0.0))], climate(), open_mount)
    [plane] = [part for part in found if part.code == "plane"]
    assert ends_of([plane]) == pytest.approx((1 - 0.04, 1.0))
    assert "plane" not in parts(array(), assumed=["/arrays/0/mount"])  # where nothing cools otherwise
    for angle in ("tilt_deg", "azimuth_deg"):
        assert parts(array(), assumed=["/arrays/0/mount", f"/arrays/0/plane/{angle}"])["plane"] > 0.15


def test_a_panel_of_which_nobody_says_that_it_is_unused_may_be_a_used_one():
    roof, open_ = (parts(array(panel=panel(history=history)))["rating"] for history in ("roof", "not_known"))
    assert parts(array(panel=panel(history="unused")))["rating"] < open_ == roof


def test_an_upright_panel_of_unknown_side_is_wider_than_an_unknown_tilt():
    side = parts(array(), assumed=["/arrays/0/plane/azimuth_deg"])["plane"]
    tilt = parts(array(), assumed=["/arrays/0/plane/tilt_deg"])["plane"]
    mount = parts(array(), assumed=["/arrays/0/mount", "/arrays/0/plane"])["plane"]
    assert tilt < side < mount


def plane_of(off, *, mount_open=True, **stand):
    told = [
        Assumption(
            pointer=f"/arrays/0/{name}",
            value=None,
            code="test",
            source="test",
            less_share=less,
            more_share=less and 0.0,
        )
        for name, less in (("mount", None), ("plane/tilt_deg", off), ("plane/azimuth_deg", off))
        if mount_open or name != "mount"
    ]
    found = spread_of([array(**stand)], [300.0], [OfLight()], climate(), Assumptions.of(told))
    return next(part for part in found if part.code == "plane")


def test_of_a_mount_that_nobody_told_upright_off_south_lies_at_the_cautious_end():
    """The interface of this service: free-standing in the middle, upright off south at the cautious end."""
    plane = plane_of(0.45)
    low, high = ends_of([plane])
    assert low == pytest.approx((1 - 0.45) * 0.8, abs=1e-3)  # and there behind a rail
    covered = plane_of(0.45, cover=Cover(material="glass", light_through_share=0.9))
    assert ends_of([covered])[0] == pytest.approx(1 - 0.45, abs=1e-3)  # what is before it was told
    assert high == 1.0  # the best plane is not bettered
    assert ends_of([plane_of(0.5)])[0] < low
    assert plane_of(0.45, mount_open=False).upward_sd_share == 0.03  # the tilt, which nobody told either


def test_what_stands_around_may_take_more_than_drawn_but_give_back_no_more_than_it_takes():
    def shade(hidden):
        found = spread_of(
            [array(shade=(TREE,))], [300.0], [OfLight(hidden_share=hidden)], climate(), Assumptions.of(())
        )
        return next(part for part in found if part.code == "shade")

    trifle, much = shade(0.001), shade(0.2)
    assert (trifle.relative_sd_share, trifle.upward_sd_share) == (0.02, 0.001)
    assert much.upward_sd_share is None


def test_a_label_that_is_never_undercut_is_no_doubt_towards_less():
    """Even spread over 0 to a has its root mean square at a / sqrt(3); to both sides of the label as one width."""

    def rating(low, high):
        one = panel(power_tolerance_pct=(low, high), history="unused")
        found = spread_of([array(panel=one)], [300.0], [OfLight()], climate(), Assumptions.of(()))
        return next(part for part in found if part.code == "rating")

    exact, never_less, never_more, both = rating(0, 0), rating(0, 6), rating(-6, 0), rating(-6, 6)
    assert exact.upward_sd_share is None
    assert both.upward_sd_share is None
    assert both.relative_sd_share == pytest.approx(((12 / 12**0.5 / 100) ** 2 + exact.relative_sd_share**2) ** 0.5)
    assert (never_less.relative_sd_share, never_less.upward_sd_share) == (
        exact.relative_sd_share,
        both.relative_sd_share,
    )
    assert (never_more.relative_sd_share, never_more.upward_sd_share) == (
        both.relative_sd_share,
        exact.relative_sd_share,
    )


def test_used_panels_are_wider_than_new_ones():
    new, used = parts(array())["rating"], parts(array(panel=panel(age_years=8, history="roof")))["rating"]
    assert used > 2 * new


def test_a_wider_tolerance_widens_the_rating():
    assert parts(array(panel=panel(power_tolerance_pct=(-10, 10))))["rating"] > parts(array())["rating"]


def test_a_sheet_of_which_points_were_not_told_is_wider_and_most_where_the_outer_ones_are_missing():
    inner = parts(array(), assumed=["/arrays/0/panel/max_power_voltage_v"])["datasheet"]
    outer = parts(array(), assumed=["/arrays/0/panel/short_circuit_current_a"])["datasheet"]
    assert 0 < inner < outer
    assert "datasheet" not in parts(array(), assumed=["/arrays/0/panel/weight_kg"])


def test_age_widens_ageing_up_to_a_bound():
    widths = [parts(array(panel=panel(age_years=years)))["ageing"] for years in (0, 10, 20, 60)]
    assert widths == sorted(widths)
    assert widths[-1] == 0.15


def test_an_age_that_nobody_told_is_no_narrower_than_any_that_it_may_be():
    def ageing(age_years, low=None, high=None):
        told = Assumption(pointer="/arrays/0/panel/age_years", value=age_years, code="test", source="test", low=low,
                          high=high)  # fmt: skip
        arrays, assumed = [array(panel=panel(age_years=age_years))], Assumptions.of([told] if high else [])
        found = spread_of(arrays, [300.0], [OfLight()], climate(), assumed)
        return {part.code: part.relative_sd_share for part in found}["ageing"]

    for told in (0, 5, 10):
        assert ageing(5, 0, 10) > ageing(told)
    # The end of the range at the spread of rates, the range's width at the median rate, and the first days.
    assert ageing(5, 0, 10) == pytest.approx((0.04**2 + (0.005 * 10 / 3.92) ** 2 + 0.01**2) ** 0.5, rel=1e-4)


def test_reflectance_counts_for_upright_planes_and_more_where_it_was_assumed():
    assert parts(array(plane=FLAT))["reflectance"] == 0
    given, open_ = (
        parts(array())["reflectance"],
        parts(array(), assumed=["/site/ground_reflectance_share"])["reflectance"],
    )
    assert 0 < given < open_


def test_snow_is_known_to_a_factor_of_two_and_only_a_reason_where_it_falls():
    found = spread_of([array()], [300.0], [OfLight(snow_share=0.02)], climate(), Assumptions.of(()))
    assert {part.code: part.relative_sd_share for part in found}["snow"] == pytest.approx(0.014)
    assert "snow" not in parts(array())


def test_arrays_count_by_their_energy():
    two = parts(array(), array(plane=FLAT))["reflectance"]
    assert two == pytest.approx(parts(array())["reflectance"] / 2)


def test_a_set_that_gives_nothing_still_has_its_reasons():
    assert spread_of([array()], [0.0], [OfLight()], climate(), Assumptions.of(()))


def test_every_code_has_its_sentence():
    """Light that the caller gave stands in the climate's place, and a rear side counts only where it is asked for."""
    everything = set(parts(array(shade=(TREE,)), assumed=["/arrays/0/plane", "/arrays/0/panel/open_circuit_voltage_v"]))
    none = Assumptions.of(())
    given = spread_of([array()], [300.0], [OfLight(rear_share=0.1, snow_share=0.02)], climate(light_from="given"), none)
    of_hours = {AT_INPUT}  # told by ``hour_moves``
    assert everything | {part.code for part in given} | of_hours == set(spread.TEXTS)
    assert "climate_data" not in {part.code for part in given}
    assert set(losses.TEXTS) == set(LOSSES)
