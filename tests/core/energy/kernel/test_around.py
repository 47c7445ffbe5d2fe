"""What stands around a panel that turns: read once by the compass, as the chain has it for each plane."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy.kernel import STEP_W_PER_M2, around_of, light_among, open_planes, place_record
from service.core.model.fixing import Fixing
from service.core.model.place import HandRail, Overhang, Plane, Shade, SideWall, SkylinePoint
from service.core.sky import darkest_places, dome_of, sky_seen
from tests.builders import array, panel
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
PLANES = [
    Plane(tilt_deg=tilt, azimuth_deg=azimuth) for tilt, azimuth in ((90, 150), (30, 181), (0, 0), (70, 95), (45, 330))
]
ONE_TILT = [Plane(tilt_deg=80, azimuth_deg=azimuth) for azimuth in (95, 150, 181)]
SLAB = {"overhang": Overhang(above_top_edge_m=0.8, reaches_out_m=1.5)}
WALLS = {"side_walls": (SideWall(side="left", distance_m=0.3, reaches_out_m=2.0),)}
CLOSE = {"overhang": Overhang(above_top_edge_m=0.0, reaches_out_m=0.4)}
BETWEEN_WALLS = {"side_walls": (*WALLS["side_walls"], SideWall(side="right", distance_m=0.1, reaches_out_m=0.4))}
SKYLINE = {"skyline": (SkylinePoint(azimuth_deg=90, height_deg=30), SkylinePoint(azimuth_deg=200, height_deg=5))}
SOFT = Shade(cause="tree", edge="soft", months=(5, 6, 7), from_clock="15:00", to_clock="18:30", blocked_share=0.6)
HARD = Shade(cause="mast", edge="hard", months=(3, 4, 5, 6), from_clock="09:20", to_clock="11:00", blocked_share=0.4)
FACADE = {"facade_azimuth_deg": 170.0}
HOUSE = {"mount": "balcony_floor", "height_above_ground_m": 6.0, "fixing": Fixing(building_height_m=10.0)}


@pytest.mark.parametrize("stands", [
    SLAB | FACADE, WALLS | FACADE, SKYLINE, {"shade": (SOFT,)}, {"shade": (HARD,)}, {"shade": (SOFT, HARD)},
    SLAB | WALLS | SKYLINE | FACADE | {"shade": (SOFT, HARD)}, BETWEEN_WALLS | FACADE, CLOSE | BETWEEN_WALLS | FACADE,
    HOUSE | FACADE, HOUSE | SKYLINE | FACADE, HOUSE | WALLS | FACADE | {"shade": (HARD,)},
], ids="+".join)  # fmt: skip
@pytest.mark.parametrize("orientation", ["upright", "lengthwise"])
@pytest.mark.parametrize("half_cells", [False, True])
@pytest.mark.parametrize("planes", [PLANES, ONE_TILT], ids=["tilts", "one tilt"])
def test_light_behind_obstacles_is_that_of_the_chain_in_every_hour(stands, orientation, half_cells, planes):
    one, record = array(**stands, orientation=orientation, panel=panel(half_cells=half_cells)), place_record(SKY)
    products = open_planes(one, record, planes, 0.2, around_of(one, SKY, record)).light()
    among = light_among(one, SKY, record, planes, 0.2)
    assert products.nodes == pytest.approx(among.nodes, abs=0.05 / STEP_W_PER_M2)
    assert products.steps == pytest.approx(among.steps, abs=0.005)
    bare = open_planes(array(), record, planes, 0.2).light()
    assert products.nodes.sum() < 0.999 * bare.nodes.sum()


def test_what_turns_with_the_panel_and_a_rear_that_counts_are_not_read_so():
    record = place_record(SKY)
    assert around_of(array(**WALLS), SKY, record) is None
    rear = replace(array(**SKYLINE), count_rear_light=True, panel=panel(bifaciality_share=0.8))
    assert around_of(rear, SKY, record) is None
    rail = HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.1)
    assert around_of(array(**SKYLINE, hand_rail=rail), SKY, record) is None
    assert around_of(array(**SKYLINE, facing_reflectance_share=0.4), SKY, record) is None


@pytest.mark.parametrize(("turned", "within"), [(0.0, 1e-12), (0.37, 2e-4)])
def test_the_sky_by_the_compass_is_the_sky_that_each_plane_sees(turned, within):
    """The same in whole degrees; between them the slices lie differently."""
    tilt, azimuth = np.array([90.0, 40.0, 15.0, 0.0, 66.0]), np.array([150.0, 181.0, 20.0, 0.0, 300.0]) + turned
    stands = (SKYLINE["skyline"], SLAB["overhang"], BETWEEN_WALLS["side_walls"])
    places = darkest_places(array(**SLAB, **BETWEEN_WALLS))
    dome = dome_of(*stands, 170.0, places)
    exact = sky_seen(tilt, azimuth, *stands, 170.0, places).after_overhang_share
    assert dome.seen_share(tilt, azimuth) == pytest.approx(exact, abs=within)
