"""Outside values on tilt advice, by the whole search and not by light alone.

* The worked years of ``test_best_tilt`` under a sky given by formula (own search, equations from memory): energy
  without limits moves the optimum by less than 2 deg.
* Gain of 2, 4 and 12 planes a year over the best fixed one: 1.7 to 3.5, 1.6 to 4.0, 2.4 to 4.7 % over the German test
  reference years of 2010 (DWD, as packaged in demandlib 0.2.2; plane irradiation by Hay and Davies, dates fixed by
  calendar; computed outside this project). Here in energy behind glass and heat, dates chosen: a little more is fair.
* Landau's rules of practice at 36, 40 and 47 N, and the fit of Jacobson and Jadhav, Solar Energy 169 (2018) 55-66.
* Noon zenith is |latitude - declination| (Duffie and Beckman, from memory): a schedule's tilts lie about the latitude.
"""

from dataclasses import replace

import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.tilt import rules_of_thumb, tilt_advice
from service.core.tilt.wish import TiltWish
from service.core.worth import AtTheMeter
from service.data.climate import load_climate
from service.data.households import load_demand_shape
from tests.kernel_cases import typical
from tests.properties import test_tilt_promises
from tests.properties.test_tilt_promises import AS_OF, advice, the_set
from tests.reference.test_best_tilt import formula_sky

OPEN = {"low_tilt_deg": 0, "high_tilt_deg": 90}


@pytest.mark.parametrize(("latitude_deg", "code", "tilts"), [
    (36, "latitude_fixed", [30.46]), (47, "latitude_fixed", [38.82]), (40, "latitude_fixed", [33.5]),
    (36, "latitude_two", [12.48, 50.7]), (47, "latitude_two", [22.71, 60.33]), (40, "latitude_two", [16.2, 54.2]),
    (36, "latitude_four", [8.82, 32.98, 32.98, 56.04]), (47, "latitude_four", [18.94, 43.76, 43.76, 65.83]),
    (44, "fit", [33.1996]), (-34, "fit", [29.5273]), (0, "fit", [1.38]), (30, "fit", [26.62]), (52, "fit", [36.21]),
])  # fmt: skip
def test_the_rules_are_written_down_rightly(latitude_deg, code, tilts):
    [rule] = [one for one in rules_of_thumb(latitude_deg) if one.code == code]
    assert sorted(tilt for _, tilt in rule.steps) == pytest.approx(tilts, abs=0.05)
    assert rule.azimuth_deg == (180 if latitude_deg >= 0 else 0)


def test_of_every_rule_summer_is_flatter_than_winter_in_either_hemisphere():
    for latitude_deg, midsummer, midwinter in ((40.0, 172, 355), (-40.0, 355, 172)):
        for rule in rules_of_thumb(latitude_deg):
            if len(rule.steps) > 1:
                assert tilt_on(rule.steps, midsummer) < tilt_on(rule.steps, midwinter)


def tilt_on(steps, day):
    before = [tilt for begin, tilt in steps if begin <= day]
    return before[-1] if before else steps[-1][1]


@pytest.mark.parametrize("place", [(52.5, 13.4), (48.1, 11.6), (53.6, 10.0)])
def test_german_gains_of_moving_are_those_of_the_test_reference_years(place, monkeypatch):
    """No snow lies on the glass of those years; with it, steep winter planes gain some 0.3 % more."""
    monkeypatch.setattr(test_tilt_promises, "typical", lambda *where: replace(typical(*where), snow_share=None))
    found = advice(the_set(place, 800.0, count=1), place, changes_per_year=(2, 4, 12)).schedules
    two, four, twelve = (100 * one.gain_share for one in found)
    assert 1.7 <= two <= 3.8
    assert 1.6 <= four <= 4.4
    assert 2.4 <= twelve <= 5.0


@pytest.mark.parametrize(("place", "tilts"), [((36.0, -5.6), [12.48, 50.7]), ((47.0, 8.0), [22.71, 60.33])])
def test_two_planes_lie_within_some_ten_degrees_of_the_rule(place, tilts):
    [schedule] = advice(the_set(place, 800.0, count=1), place, changes_per_year=(2,)).schedules
    assert sorted(step.plane.tilt_deg for step in schedule.steps) == pytest.approx(tilts, abs=12)


def formula_advice(latitude_deg, longitude_deg, given=({"tilt_deg": 1, "azimuth_deg": 1},), **wish):
    """Advice under the formula's sky; its air and wind are even."""
    sky = formula_sky(latitude_deg, longitude_deg)
    place = (54.2, 12.3)  # any climate: only its spread is read
    asked = the_set(place, 800.0, count=1)

    def year(one):
        return year_under(one, sky, place)

    meter = AtTheMeter.of(year(asked), asked, sky.calendar, load_demand_shape(), None)
    return tilt_advice(asked, sky, given, TiltWish(**(OPEN | wish)), meter, lambda one: year(one).ac_w, AS_OF)


def year_under(asked, sky, place):
    return energy_year(asked, sky, load_climate().at(*place, None), Assumptions.of([]))


def test_the_worked_year_at_34_south():
    best = formula_advice(-34.0, 20.0).best
    assert best.tilt_deg == pytest.approx(32.6148, abs=2.0 + 1.5)
    assert min(best.azimuth_deg, 360 - best.azimuth_deg) <= 3


def test_the_worked_year_near_the_equator():
    found = formula_advice(0.5, 32.0)
    assert found.best.tilt_deg <= 3
    assert found.near_best[1].high_tilt_deg >= 10  # 10 deg any way lose 1.4 %


def test_the_worked_year_at_48_north():
    assert formula_advice(48.0, 11.0).best.tilt_deg == pytest.approx(42.8351, abs=2.0 + 1.5)


def test_a_schedules_summer_is_flatter_than_its_winter_by_about_the_suns_own_way():
    """Between the means of summer's and winter's noon sun lie some 30 deg of declination."""
    [schedule] = formula_advice(48.0, 11.0, changes_per_year=(2,)).schedules
    low, high = sorted(step.plane.tilt_deg for step in schedule.steps)
    assert 20 <= high - low <= 45
    assert low < 42.8 < high
