"""The ground before the house that panels hang on: told heights fall within the band of untold ones, and narrow it."""

from typing import Any

import pytest

from tests.http.client import SMALLEST, post

NORTH, EAST = ({"tilt_deg": 90, "azimuth_deg": at} for at in (0, 90))


def energy(plane: dict[str, float], **told: Any) -> dict[str, Any]:
    array = {"panel": {"rated_power_w": 410}, "plane": plane, **told}
    return dict(post("/v1/energy", {**SMALLEST, "arrays": [array]}).json()["energy"])


def doubt(year: dict[str, Any], code: str) -> tuple[float, float]:
    (part,) = [one for one in year["spread"] if one["code"] == code]
    return part["relative_sd_share"], part.get("upward_sd_share", part["relative_sd_share"])


def test_a_wall_to_the_north_has_less_than_a_frame_as_its_house_dims_the_ground_and_more_so_to_the_north() -> None:
    lost = []
    for plane in (NORTH, EAST):
        free, hung = (energy(plane, mount=mount)["light_kwh"] for mount in ("ground_frame", "wall"))
        lost.append(1 - hung / free)
    assert lost[0] > 2 * lost[1] > 0.03


@pytest.mark.parametrize("mount", ["hung_on_rail", "behind_rail", "balcony_floor", "wall"])
def test_heights_that_somebody_tells_stay_within_the_band_of_untold_ones(mount: str) -> None:
    untold = energy(NORTH, mount=mount)["year_kwh"]
    for height, house in ((2.5, 6), (6, 6), (6, 18), (12, 15)):
        told = energy(NORTH, mount=mount, height_above_ground_m=height, fixing={"building_height_m": house})
        assert untold["cautious"] <= told["year_kwh"]["middle"] <= untold["hopeful"]


def test_knowing_the_heights_makes_the_doubt_about_the_ground_smaller() -> None:
    less, more = doubt(energy(NORTH, mount="wall"), "reflectance")
    known = energy(NORTH, mount="wall", height_above_ground_m=4, fixing={"building_height_m": 7})
    assert doubt(known, "reflectance")[0] < less
    assert more > doubt(energy(NORTH, mount="ground_frame"), "reflectance")[1]


def test_of_a_mount_that_nobody_told_the_house_is_a_doubt_to_less_alone_and_counts_once() -> None:
    """It was in the ground's part, too, beside what a wall or rail leaves."""
    silent, free = energy(NORTH), energy(NORTH, mount="free_standing")
    assert silent["light_kwh"] == free["light_kwh"]
    assert doubt(silent, "reflectance") == pytest.approx(doubt(free, "reflectance"), rel=1e-3)
    less, more = doubt(silent, "shade")
    assert less > 0.1
    assert more == 0.0
