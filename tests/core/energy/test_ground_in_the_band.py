"""What nobody told of the ground and of faces in the skyline stands in the band, as far as it moves the year."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Plane, RowInFront, SkylinePoint
from service.core.sky import plane_light
from service.core.sky.faces_doubt import BRIGHT_FACES_SHARE
from tests.builders import array, panel, setup, site
from tests.climates import climate
from tests.skies import clear_year, mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
NOTHING_ASSUMED = Assumptions.of(())
UPRIGHT = Plane(tilt_deg=90, azimuth_deg=180)
COURT = (SkylinePoint(azimuth_deg=0, height_deg=45), SkylinePoint(azimuth_deg=180, height_deg=45))
PARAPET = RowInFront(above_bottom_edge_m=1.0, distance_m=0.3)


def year(reflectance=0.2, **stands):
    one = array(**{"plane": UPRIGHT, **stands})
    asked = setup(arrays=(one,), site=site(ground_reflectance_share=reflectance))
    return energy_year(asked, SKY, climate(), NOTHING_ASSUMED)


def sd(found, code):
    return next(part for part in found.spread if part.code == code)


def on_cells(one, reflectance):
    return float(plane_light(SKY, one, reflectance).after_cover_w_per_m2.sum())


def test_faces_that_nobody_told_raise_the_hopeful_end_alone():
    untold, black, grey = (year(skyline=COURT, facing_reflectance_share=told) for told in (None, 0.0, 0.25))
    assert untold.year_kwh.middle == black.year_kwh.middle
    assert untold.year_kwh.cautious == pytest.approx(black.year_kwh.cautious)
    assert black.year_kwh.middle < grey.year_kwh.middle < untold.year_kwh.hopeful
    assert untold.year_kwh.hopeful > black.year_kwh.hopeful
    assert year().year_kwh == year(facing_reflectance_share=0.0).year_kwh


def rising(height_deg, *towards_deg):
    """Straight walls without end, each square to a direction, of that height there."""
    compass = np.arange(0.0, 360.0, 2.0)
    rise = np.tan(np.radians(height_deg))
    tangents = [rise * np.cos(np.radians(compass - towards)) for towards in towards_deg]
    heights = np.degrees(np.arctan(np.maximum(np.max(tangents, axis=0), 0.0)))
    return tuple(SkylinePoint(azimuth_deg=float(a), height_deg=float(h)) for a, h in zip(compass, heights, strict=True))


STANDS = {
    "one house": rising(70, 180),
    "corner": rising(60, 180, 270),
    "street": rising(50, 180, 0),
    "street along": rising(50, 90, 270),
    "court": COURT,
}


@pytest.mark.parametrize("facing_deg", [0, 180])
@pytest.mark.parametrize("stand", STANDS)
@pytest.mark.parametrize("told", [0.0, 0.1, 0.25, 0.4])
def test_faces_told_as_what_they_may_be_lie_in_the_band_of_untold_ones(stand, facing_deg, told):
    """Once one house told as 0.25 lay up to 20 % above the hopeful end: the doubt took a round court for it."""
    plane = Plane(tilt_deg=90, azimuth_deg=facing_deg)
    around = {"plane": plane, "skyline": STANDS[stand]}
    untold, known = (year(**around, facing_reflectance_share=share) for share in (None, told))
    assert untold.year_kwh.cautious <= known.year_kwh.middle + 1e-9
    assert known.year_kwh.middle <= untold.year_kwh.hopeful
    assert known.year_kwh.middle < untold.year_kwh.hopeful or told == 0.0


@pytest.mark.parametrize("stand", STANDS)
def test_under_an_even_sky_the_doubt_about_faces_is_what_bright_ones_bring(stand):
    """Told so bright, the year has as much more light; the sun on told faces alone is in doubt, and here is none."""
    dull = overcast(SKY)
    one = array(plane=UPRIGHT, skyline=STANDS[stand])
    bright = replace(one, facing_reflectance_share=BRIGHT_FACES_SHARE)
    black, lit = (plane_light(dull, each, 0.2) for each in (one, bright))
    more = float((lit.after_cover_w_per_m2 - black.after_cover_w_per_m2).sum()) / 1000
    assert black.more_by_faces_kwh_per_m2 == pytest.approx(more, rel=0.02)
    assert lit.more_by_faces_kwh_per_m2 == 0.0
    assert plane_light(SKY, replace(one, facing_reflectance_share=0.0), 0.2).more_by_faces_kwh_per_m2 == 0.0


@pytest.mark.parametrize("share", [None, 0.25])
def test_what_faces_may_bring_never_lifts_the_year_above_the_bare_one(share):
    """A white facade in the sun before a panel that looks north would: it stays wary."""
    house = array(plane=Plane(tilt_deg=90, azimuth_deg=0), skyline=rising(30, 0), facing_reflectance_share=share)
    sun_alone = clear_year(54.2, 12.3)
    light = plane_light(sun_alone, house, 0.2)
    hidden = float((light.open_w_per_m2 - light.after_skyline_w_per_m2).sum()) / 1000
    assert light.more_by_faces_kwh_per_m2 == pytest.approx(hidden)
    assert hidden > 0.0


@pytest.mark.parametrize("stands", [
    {"skyline": COURT}, {"row_in_front": PARAPET, "orientation": "upright", "panel": panel(half_cells=False)},
    {"skyline": COURT, "row_in_front": PARAPET, "orientation": "upright", "panel": panel(half_cells=True)},
], ids="+".join)  # fmt: skip
def test_what_is_left_of_the_ground_s_light_is_how_far_the_light_moves_with_reflectance(stands):
    bare = array(plane=UPRIGHT, orientation=stands.get("orientation", "upright"), panel=stands.get("panel", panel()))
    one = replace(bare, **stands)
    dull = replace(SKY, dni_w_per_m2=np.zeros(8760), dhi_w_per_m2=SKY.ghi_w_per_m2)
    moved = [
        float(
            (
                plane_light(dull, each, 0.3).after_shade_w_per_m2 - plane_light(dull, each, 0.1).after_shade_w_per_m2
            ).sum()
        )
        for each in (bare, one)
    ]
    assert plane_light(dull, one, 0.2).ground_left_share == pytest.approx(moved[1] / moved[0], rel=1e-3)
    assert plane_light(dull, bare, 0.2).ground_left_share == 1.0


def test_the_doubt_about_reflectance_is_as_far_as_it_moves_the_light_that_is_left():
    """In a court the ground sends half of what it sends bare, of a quarter of the light."""
    bare, court = array(plane=UPRIGHT), array(plane=UPRIGHT, skyline=COURT)
    per_light = [
        (on_cells(one, 0.3) - on_cells(one, 0.1)) / plane_light(SKY, one, 0.2).effective_w_per_m2.sum()
        for one in (bare, court)
    ]
    open_, shut = (sd(found, "reflectance").relative_sd_share for found in (year(), year(skyline=COURT)))
    assert shut / open_ == pytest.approx(per_light[1] / per_light[0], rel=0.01)


@pytest.mark.parametrize(
    "stands", [{"skyline": COURT}, {"row_in_front": PARAPET}, {"skyline": COURT, "facing_reflectance_share": 0.5}]
)
def test_the_account_still_adds_up(stands):
    found = year(**stands)
    assert found.light_kwh == pytest.approx(year().light_kwh)
    assert found.light_kwh - sum(found.lost_kwh.values()) == pytest.approx(found.year_kwh.middle, abs=1e-9)
    taken = "skyline" if "skyline" in stands else "shade"
    assert found.lost_kwh[taken] > 0.0
    assert found.lost_kwh["overhang"] == pytest.approx(0.0, abs=1e-9)
