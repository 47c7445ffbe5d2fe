import pytest

from service.core.errors import ContradictionError
from service.core.tilt import PlaneBounds, bounds_by_mount, narrowed


@pytest.mark.parametrize("mount", ["hung_on_rail", "behind_rail", "wall", "fence"])
def test_what_hangs_on_a_railing_or_wall_is_upright_and_its_face_is_not_ours_to_choose(mount):
    bounds = bounds_by_mount(mount)
    assert (bounds.low_tilt_deg, bounds.high_tilt_deg) == (90.0, 90.0)
    assert bounds.facing == "not_known"


@pytest.mark.parametrize("mount", ["balcony_floor", "ground_frame", "flat_roof", "free_standing"])
def test_what_stands_free_may_be_propped_up_and_turned(mount):
    bounds = bounds_by_mount(mount)
    assert (bounds.low_tilt_deg, bounds.high_tilt_deg) == (15.0, 40.0)
    assert bounds.facing == "chosen"
    assert bounds.azimuth_span_deg() == 360.0


def test_a_roof_slopes_at_35_and_faces_where_it_faces():
    bounds = bounds_by_mount("sloped_roof")
    assert (bounds.low_tilt_deg, bounds.high_tilt_deg) == (35.0, 35.0)
    assert bounds.facing == "not_known"


def test_an_unknown_mount_is_refused():
    with pytest.raises(ContradictionError, match="no such mount"):
        bounds_by_mount("balloon")


def test_what_the_caller_gave_is_nailed_down_and_the_rest_stays_open():
    tilted = narrowed(bounds_by_mount("wall"), tilt_deg=70.0)
    assert (tilted.low_tilt_deg, tilted.high_tilt_deg, tilted.facing) == (70.0, 70.0, "not_known")
    turned = narrowed(bounds_by_mount("ground_frame"), azimuth_deg=200.0)
    assert (turned.low_azimuth_deg, turned.high_azimuth_deg) == (200.0, 200.0)
    assert (turned.low_tilt_deg, turned.high_tilt_deg) == (15.0, 40.0)
    assert narrowed(turned) == turned


@pytest.mark.parametrize(("low", "high", "span"), [(0, 360, 360), (90, 270, 180), (315, 45, 90), (200, 200, 0)])
def test_azimuths_run_clockwise_from_low_to_high(low, high, span):
    bounds = PlaneBounds(low_tilt_deg=0, high_tilt_deg=90, low_azimuth_deg=low, high_azimuth_deg=high)
    assert bounds.azimuth_span_deg() == span
