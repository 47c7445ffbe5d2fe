"""The d.c. side of a changed set, with inputs that stayed as they were taken over."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import KnownInputs, direct_current, direct_current_again
from service.core.errors import ContradictionError
from service.core.model.place import Plane
from tests.builders import array, inverter, one_input, setup
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
SOUTH = array(name="south", input=1, plane=Plane(tilt_deg=60, azimuth_deg=180))
WEST = array(name="west", input=2, plane=Plane(tilt_deg=60, azimuth_deg=260))
KNOWN = setup(arrays=(SOUTH, WEST), inverter=inverter(inputs=(one_input(),) * 3, input_count=3))
HOURS = direct_current(KNOWN, SKY)


def again(changed):
    return direct_current_again(changed, KnownInputs(KNOWN, SKY, HOURS))


@pytest.mark.parametrize(
    "changed",
    [
        KNOWN,
        replace(KNOWN, arrays=(SOUTH, replace(WEST, count=2, joined="parallel"))),
        replace(KNOWN, arrays=(WEST,)),
        replace(KNOWN, arrays=(WEST, SOUTH)),
        replace(KNOWN, arrays=(SOUTH, WEST, replace(SOUTH, input=3))),
        replace(KNOWN, arrays=(SOUTH, replace(SOUTH, input=2), replace(WEST, input=3))),
        replace(KNOWN, arrays=(SOUTH, replace(WEST, input=1))),
        replace(KNOWN, arrays=(SOUTH, replace(WEST, joined="parallel"))),
        replace(KNOWN, arrays=(SOUTH, replace(WEST, joined="one_string"))),
        replace(KNOWN, inverter=inverter(inputs=(one_input(), one_input(max_current_a=8)), set_limit_w=300)),
        replace(KNOWN, site=replace(KNOWN.site, ground_reflectance_share=0.6)),
        replace(KNOWN, money=replace(KNOWN.money, ageing_share_per_year=0.03)),
    ],
)
def test_it_is_what_the_chain_says_of_the_changed_set(changed):
    taken, whole = again(changed), direct_current(changed, SKY)
    assert len(taken) == len(whole)
    for one, other in zip(taken, whole, strict=True):
        np.testing.assert_array_equal(one.dc_w, other.dc_w)
        assert one.lost_kwh == other.lost_kwh


def test_an_input_that_stayed_as_it_was_is_not_computed_again():
    changed = replace(KNOWN, arrays=(replace(SOUTH, count=2, joined="parallel"), WEST))
    south, west = again(changed)
    assert west is HOURS[1]
    assert south is not HOURS[0]


def test_an_equal_panel_on_an_equal_input_gives_what_the_first_one_gives_and_on_another_input_its_own():
    copied = replace(KNOWN, arrays=(SOUTH, WEST, replace(SOUTH, name="more", input=3)))
    assert again(copied)[2] is HOURS[0]
    narrow = replace(copied, inverter=inverter(inputs=(one_input(), one_input(), one_input(max_current_a=5))))
    third = again(narrow)[2]
    assert third.dc_w.sum() < 0.9 * HOURS[0].dc_w.sum()


def test_what_one_changed_set_was_computed_for_serves_the_next():
    known = KnownInputs(KNOWN, SKY, HOURS)
    two = replace(WEST, count=2, joined="parallel")
    first = direct_current_again(replace(KNOWN, arrays=(SOUTH, two)), known)
    moved = replace(KNOWN, arrays=(replace(two, name="moved", input=3), SOUTH))
    then = direct_current_again(moved, known)
    assert then[0] is first[1]
    whole = direct_current(moved, SKY)
    for one, other in zip(then, whole, strict=True):
        np.testing.assert_array_equal(one.dc_w, other.dc_w)


def test_several_panels_joined_another_way_are_computed_anew():
    known = KnownInputs(KNOWN, SKY, HOURS)
    changes = [replace(KNOWN, arrays=(SOUTH, replace(WEST, count=2, joined=way))) for way in ("parallel", "series")]
    parallel, series = (direct_current_again(changed, known)[1] for changed in changes)
    assert parallel is not series
    np.testing.assert_array_equal(series.dc_w, direct_current(changes[1], SKY)[1].dc_w)


def test_light_measured_in_the_planes_goes_by_the_order_of_the_arrays():
    measured = replace(SKY, plane_w_per_m2=(SKY.ghi_w_per_m2, SKY.ghi_w_per_m2 * 0.5))
    hours = direct_current(KNOWN, measured)
    fewer_volts = replace(KNOWN, inverter=inverter(inputs=(one_input(), one_input(max_current_a=6))))
    taken = direct_current_again(fewer_volts, KnownInputs(KNOWN, measured, hours))
    np.testing.assert_array_equal(taken[1].dc_w, direct_current(fewer_volts, measured)[1].dc_w)


def test_an_input_that_is_not_there_is_refused_where_it_was_asked_for():
    changed = replace(KNOWN, arrays=(SOUTH, replace(WEST, input=4)))
    with pytest.raises(ContradictionError) as refused:
        again(changed)
    assert refused.value.pointer == "/arrays/1/input"
