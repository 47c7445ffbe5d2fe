"""Does a cell of the table that is said to lie in one time zone do so, by the boundaries it was made of?"""

import json
import re

import numpy as np
import pytest
import tzfpy

from service.data.places import time_zone_of, zones
from service.data.places.cells import zone_cells
from tests.data.test_sources import sections

TABLE = "places/zone_cells.npz"


def test_all_over_the_world_the_table_says_what_the_boundaries_say_or_nothing() -> None:
    random = np.random.default_rng(7)
    # Evenly over the sphere, as places are; in its rows near the poles a table of degrees has too many.
    latitudes = np.degrees(np.arcsin(random.uniform(-1.0, 1.0, 40_000)))
    places = np.column_stack((latitudes, random.uniform(-180.0, 180.0, latitudes.size))).tolist()
    said = {(latitude, longitude): zone_cells().zone_at(latitude, longitude) for latitude, longitude in places}
    wrong = [at for at, zone in said.items() if zone is not None and zone != tzfpy.get_tz(at[1], at[0])]
    assert wrong == []
    assert sum(zone is None for zone in said.values()) < 0.05 * len(said)


@pytest.mark.parametrize("name", ["Europe/Berlin", "Europe/Busingen", "Asia/Urumqi", "America/Denver", "Etc/GMT+2"])
def test_cells_that_a_boundary_passes_are_left_open(name: str) -> None:
    shape = json.loads(tzfpy.get_tz_polygon_geojson(name))["features"][0]["geometry"]
    polygons = shape["coordinates"] if shape["type"] == "MultiPolygon" else [shape["coordinates"]]
    corners = np.array([corner for polygon in polygons for ring in polygon for corner in ring])
    middles = (corners[1:] + corners[:-1]) / 2.0
    near = np.abs(np.diff(corners, axis=0)).max(axis=1) < 0.1  # the two ends of a ring and the next are no edge
    told = [zone_cells().zone_at(latitude, longitude) for longitude, latitude in (*corners, *middles[near])]
    assert len(told) > 10
    assert [zone for zone in told if zone is not None] == []


def test_off_the_table_nothing_is_said() -> None:
    assert zone_cells().zone_at(65.0, 180.0) is None
    assert zone_cells().zone_at(-90.0, 0.0) is None


def test_far_from_every_border_the_boundaries_are_not_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zones, "tzfpy", None)
    assert time_zone_of(54.2, 12.3) == "Europe/Berlin"
    assert time_zone_of(40.6, -111.9) == "America/Denver"


def test_the_table_was_made_of_the_edition_that_is_installed() -> None:
    found = re.search(r"boundaries of edition (\w+)", sections()[TABLE]["origin"])
    assert found is not None
    assert found[1] == tzfpy.data_version()
