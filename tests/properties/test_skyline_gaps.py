"""Does a skyline with points far apart tell what it is taken to be between them, and stay what it was?"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.completion.fill_skyline import skyline_of
from service.core.completion.node import Node
from service.core.model.place import SkylinePoint
from service.core.sky import clockwise, skyline_height_deg

AROUND = np.arange(0.0, 360.0, 0.5) + 0.25
tenths = st.integers(0, 3599).map(lambda at: at / 10)
points = st.fixed_dictionaries({"azimuth_deg": tenths, "height_deg": st.integers(0, 80)})


def ring_of(skyline):
    return clockwise([SkylinePoint(**one) for one in skyline])


skylines = st.lists(points, max_size=6).filter(lambda skyline: ring_of(skyline) is not None)


def filled(skyline):
    log = []
    return skyline_of(Node({"skyline": skyline}, "/arrays/0", log)), log


def widest_blind_gap_deg(skyline):
    """The widest gap with a height at either end, found by hand from point to point."""
    ring = sorted(skyline, key=lambda one: one["azimuth_deg"])
    if len(ring) == 1:
        return 360.0 if ring[0]["height_deg"] else 0.0
    gaps = [0.0]
    for at, one in enumerate(ring):
        other = ring[(at + 1) % len(ring)]
        if one["height_deg"] or other["height_deg"]:
            gaps.append((other["azimuth_deg"] - one["azimuth_deg"]) % 360)
    return max(gaps)


@given(skylines)
def test_points_put_in_leave_the_skyline_what_it_was(skyline):
    found, _ = filled(skyline)
    before = skyline_height_deg(ring_of(skyline), AROUND)
    np.testing.assert_allclose(skyline_height_deg(found, AROUND), before, atol=1e-9)


@given(skylines)
def test_what_bridges_more_than_a_quarter_is_written_down_and_nothing_else(skyline):
    found, log = filled(skyline)
    wide = widest_blind_gap_deg(skyline) > 90.000001
    assert [one.code for one in log] == (["straight_across_gaps"] if wide else [])
    if wide:
        assert log[0].value == [{"azimuth_deg": one.azimuth_deg, "height_deg": one.height_deg} for one in found]
    else:
        assert len(found) == len(skyline)


@given(skylines)
def test_asked_again_with_what_was_taken_nothing_is_assumed(skyline):
    found, _ = filled(skyline)
    again, log = filled([{"azimuth_deg": one.azimuth_deg, "height_deg": one.height_deg} for one in found])
    assert (again, log) == (found, [])


@pytest.mark.parametrize("beside_deg", [(70, 110), (89, 91)])
def test_a_house_with_level_ground_beside_it_is_no_ridge(beside_deg):
    left, right = beside_deg
    house = [{"azimuth_deg": at, "height_deg": height} for at, height in ((left, 0), (90, 20), (right, 0))]
    found, log = filled(house)
    assert log == []
    assert float(skyline_height_deg(found, 200.0)) == 0.0


def test_a_point_alone_stands_all_around_and_says_so():
    found, log = filled([{"azimuth_deg": 150, "height_deg": 12}])
    assert {float(height) for height in skyline_height_deg(found, AROUND)} == {12.0}
    assert log[0].pointer == "/arrays/0/skyline"


def test_an_absent_skyline_is_nothing_around():
    log = []
    assert skyline_of(Node({}, "/arrays/0", log)) == ()
    assert [(one.code, one.value) for one in log] == [("nothing_around", [])]


def test_a_skyline_of_as_many_points_as_may_be_is_left():
    many = [{"azimuth_deg": at / 4, "height_deg": 1} for at in range(360)]
    found, log = filled(many)
    assert (len(found), log) == (360, [])
