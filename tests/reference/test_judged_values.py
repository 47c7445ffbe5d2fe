"""Values of judgement, held within what is published about them. Each range with its source; none is our own output.

They are wide because the knowledge is; a value outside is a mistake, one inside remains a judgement.
"""

import json
from pathlib import Path

import numpy as np
import pytest

from service.core.completion.set_rows import ARRAY_ROWS
from service.core.energy import OfLight, spread_of
from service.core.model.assumption import Assumptions
from service.data.climate import load_climate
from service.data.climate.recipe import satellite_share
from tests.builders import array, panel
from tests.climates import climate
from tests.requests import asked, with_array
from tests.skies import mixed_year

FILES = json.loads((Path(__file__).parent / "hours_extract.json").read_text(encoding="utf-8"))
# EN 1991-1-4 (2005), 4.3.2 and table 4.1, terrain IV (town, 15 % built over): kr = 0.19 (1.0 / 0.05)^0.07, least height
# 10 m, cr = kr ln(10 / 1.0). From memory.
TOWN_SHARE_OF_OPEN_WIND = 0.19 * (1.0 / 0.05) ** 0.07 * np.log(10.0) / (0.19 * np.log(10.0 / 0.05))


def test_a_flash_test_is_as_sure_as_laboratories_say():
    """Calibration of crystalline panels: 1.6 to 3 % at 95 % (k = 2), laboratories' own figures; from memory."""
    spread = spread_of(
        [array(panel=panel(power_tolerance_pct=(0, 0)))], [300.0], [OfLight()], climate(), Assumptions.of(())
    )
    sd_share = {part.code: part.relative_sd_share for part in spread}["rating"]
    assert 0.008 <= sd_share <= 0.015


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_wind_at_a_panel_is_less_than_over_a_town_and_more_than_in_a_yard(name):
    """The file's daytime wind at 10 m over open ground; in a town that share of it, in a lee half of that again."""
    in_town = TOWN_SHARE_OF_OPEN_WIND * FILES[name]["wind_by_day_m_per_s"]
    assert 0.5 * in_town <= load_climate().at(*FILES[name]["at"]).wind_m_per_s <= in_town


def test_usual_dirt_is_that_of_washed_panels_in_rain():
    """1 to 4 % a year where it rains all year round: field studies of temperate climates; from memory.

    Ilse et al., Joule 3 (2019) 2303-2321, have 3 to 4 % for the world, deserts in it.
    """
    row = next(row for row in ARRAY_ROWS if row.pointer.endswith("/dirt_share"))
    assert 0.01 <= row.value <= 0.04


@pytest.mark.parametrize("high_m", [0.2, 0.4, 0.7, 1.0, 1.2, 2.0])
def test_what_comes_past_a_rail_to_panels_on_the_floor_is_what_their_lowest_cells_get(high_m):
    """A rail that lets 0.8 through and ends so high, 0.05 to 0.5 m before panels that lean 15 to 45 degrees south.

    An even sky by profile angles, numerically, the sun hour by hour; the lowest row of cells is 0.1 m up the panel.
    """
    found = [share for place in ((54.2, 12.3), (37.2, -5.9)) for share in _past_rail(mixed_year(*place), high_m)]
    [taken] = asked(with_array(mount="balcony_floor", fixing={"railing_height_m": high_m})).setup.arrays
    assert min(found) < taken.cover.light_through_share < max(found)
    assert taken.cover.light_through_share == pytest.approx(np.mean(found), abs=0.025)


def _past_rail(sky, high_m):
    """Of the light of all on the lowest row what is left, for each of nine stands."""
    up, south = np.cos(np.radians(sky.sun_zenith_deg)), np.radians(sky.sun_azimuth_deg - 180.0)
    out = np.sqrt(np.maximum(1.0 - up**2, 0.0)) * np.cos(south)
    angles = (np.arange(1800) + 0.5) * np.pi / 1800
    found = []
    for tilt in np.radians([15.0, 30.0, 45.0]):
        for ahead_m in (0.05, 0.2, 0.5):
            behind = np.arctan2(high_m - 0.1 * np.sin(tilt), ahead_m + 0.1 * np.cos(tilt))
            facing = np.maximum(np.sin(angles + tilt), 0.0) * np.pi / 1800 / 2.0  # of the sky at profile angles
            beam = sky.dni_w_per_m2 * np.maximum(up * np.cos(tilt) + out * np.sin(tilt), 0.0) * (up > 0.0)
            hidden = (beam * ((np.arctan2(up, out) < behind) & (out > 0.0))).sum()
            hidden += sky.dhi_w_per_m2.sum() * facing[angles < behind].sum()
            every = beam.sum() + sky.dhi_w_per_m2.sum() * facing.sum()
            found.append(1.0 - 0.2 * hidden / every)
    return found


def test_two_estimates_of_like_error_count_alike():
    """Weights by inverse mean square: against 69 measured series the grids have bias 1.7 and sd 3.2 %, the satellite
    3.7 and 2.6, so that it should have 0.39; if only their spread counted, 0.60.
    """
    by_mean_square = (1.7**2 + 3.2**2) / (1.7**2 + 3.2**2 + 3.7**2 + 2.6**2)
    by_spread = 3.2**2 / (3.2**2 + 2.6**2)
    assert by_mean_square <= satellite_share(50.0, 10.0) <= by_spread
    assert satellite_share(44.9, 10.0) == satellite_share(50.0, 17.0) == 0.0
