"""Clear, changing and dull days by season."""

from dataclasses import replace

import numpy as np

from service.core.energy import day_kinds
from tests.skies import clear_year, mixed_year

CLEAR = clear_year(54.2, 12.3)


def test_a_cloudless_year_has_clear_days_only():
    kinds = day_kinds(np.ones(8760), CLEAR, south=False)
    assert [(k.season, k.kind) for k in kinds] == [(s, "clear") for s in ("winter", "spring", "summer", "autumn")]
    assert [k.days for k in kinds] == [90, 92, 92, 91]


def test_seasons_turn_round_in_the_south():
    north, south = (day_kinds(CLEAR.ghi_w_per_m2, CLEAR, south=s) for s in (False, True))
    by_season = {k.season: k for k in south}
    assert by_season["winter"].ac_w == next(k.ac_w for k in north if k.season == "summer")
    assert by_season["spring"].days == 91


def test_a_days_kind_goes_by_its_share_of_cloudless_light():
    share = np.array([0.9, 0.6, 0.2])[CLEAR.calendar.day_of_year % 3]
    sky = replace(CLEAR, ghi_w_per_m2=CLEAR.ghi_w_per_m2 * share)
    days = dict.fromkeys(("clear", "changing", "dull"), 0)
    for one in day_kinds(np.ones(8760), sky, south=False):
        days[one.kind] += one.days
    assert sorted(days.values()) == [121, 122, 122]


def test_the_hours_are_the_wall_clocks_with_summer_time():
    """54 N 12 E: the sun stands highest at about 11:10 in winter and 12:10 to 13:20 in summer by the clock."""
    kinds = {k.season: k for k in day_kinds(CLEAR.ghi_w_per_m2, CLEAR, south=False)}
    assert int(np.argmax(kinds["winter"].ac_w)) in (11, 12)
    assert int(np.argmax(kinds["summer"].ac_w)) in (12, 13)
    assert int(np.argmax(kinds["summer"].ac_w)) == int(np.argmax(kinds["winter"].ac_w)) + 1


def test_mean_hours_of_a_constant_output_are_that_output():
    for kind in day_kinds(np.full(8760, 7.0), mixed_year(54.2, 12.3), south=False):
        assert np.allclose(kind.ac_w, 7.0)


def test_a_day_without_light_is_dull():
    dark = replace(CLEAR, ghi_w_per_m2=np.zeros(8760), clear_ghi_w_per_m2=np.zeros(8760))
    assert {k.kind for k in day_kinds(np.zeros(8760), dark, south=False)} == {"dull"}
