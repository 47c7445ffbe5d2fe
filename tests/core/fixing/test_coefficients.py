"""The coefficients lie where the standard's lines lie, and a band never turns over."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.fixing.coefficients import by_area, coefficients

MOUNTS = (
    "hung_on_rail", "behind_rail", "balcony_floor", "wall", "fence", "ground_frame", "flat_roof", "sloped_roof",
    "free_standing",
)  # fmt: skip


@given(st.sampled_from(MOUNTS), st.floats(0, 90), st.floats(0.01, 20))
def test_every_mount_has_ordered_bands_above_nought(mount: str, tilt_deg: float, area_m2: float) -> None:
    found = coefficients(mount, tilt_deg, area_m2)
    for band in (found.push, found.pull):
        assert band.cautious >= band.middle >= band.hopeful > 0
        assert band.cautious <= 2.5
    assert "clause 7" in found.clause


FRAMES = [(0, 0.2, (1.3, 0.5)), (10, 0.5, (1.4, 0.9)), (30, 1.2, (1.8, 1.4)), (90, 1.8, (1.8, 1.8))]


@pytest.mark.parametrize(("tilt_deg", "down", "up"), FRAMES)
def test_a_frame_reads_the_table_of_monopitch_canopies_and_ends_as_a_board(tilt_deg, down, up):
    # EN 1991-1-4:2005 table 7.6 (from memory), clause 7.4.3
    found = coefficients("ground_frame", tilt_deg, 2.0)
    assert found.push.middle == pytest.approx(down)
    assert (found.pull.cautious, found.pull.hopeful) == pytest.approx(up)


def test_between_two_lines_of_the_table_it_runs_straight():
    assert coefficients("ground_frame", 12.5, 2.0).push.middle == pytest.approx(0.6)


def test_a_small_area_catches_a_sharper_gust():
    assert by_area(0.7, 1.2, 1.0) == by_area(0.7, 1.2, 0.2) == 1.2
    assert by_area(0.7, 1.2, 10.0) == by_area(0.7, 1.2, 40.0) == pytest.approx(0.7)
    assert by_area(0.7, 1.2, 2.0) == pytest.approx(1.2 - 0.5 * 0.30103, abs=1e-5)


def test_on_a_flat_roof_the_pull_is_never_below_that_of_the_frame_alone():
    for tilt_deg in (0, 10, 15, 30, 60):
        roof, ground = (coefficients(mount, tilt_deg, 2.0).pull for mount in ("flat_roof", "ground_frame"))
        assert roof.cautious >= ground.cautious
        assert roof.middle >= ground.middle
