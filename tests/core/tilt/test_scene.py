import pytest

from service.core.model.place import Cover, Overhang, Plane, Shade, SkylinePoint
from service.core.sky import plane_light
from service.core.tilt import year_light_kwh_per_m2
from service.core.tilt.scene import grouped, scene_of
from tests.builders import array
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
CROWDED = array(
    plane=Plane(tilt_deg=70, azimuth_deg=150),
    skyline=(SkylinePoint(azimuth_deg=90, height_deg=20), SkylinePoint(azimuth_deg=220, height_deg=5)),
    overhang=Overhang(above_top_edge_m=1.6, reaches_out_m=0.3),
    cover=Cover(material="glass", light_through_share=0.8),
    shade=(
        Shade(cause="tree", edge="soft", months=(6, 7), from_clock="15:00", to_clock="18:00", blocked_share=0.6),
        Shade(cause="mast", edge="hard", months=(3, 9), from_clock="10:00", to_clock="11:30", blocked_share=0.2),
    ),
)


def test_the_years_light_is_the_sum_of_the_hours():
    hours = plane_light(SKY, CROWDED, 0.2).effective_w_per_m2
    assert year_light_kwh_per_m2(CROWDED, SKY, CROWDED.plane, 0.2) == pytest.approx(hours.sum() / 1000.0)


@pytest.mark.parametrize("plane", [Plane(tilt_deg=30, azimuth_deg=180), Plane(tilt_deg=90, azimuth_deg=120)])
def test_grouped_hours_come_near_the_hours_themselves(plane):
    for case, within in ((array(), 0.005), (CROWDED, 0.01)):
        scene = scene_of(case, SKY, 0.2)
        rough = grouped(scene)
        assert rough.daylight.rows.size < scene.daylight.rows.size / 10
        assert rough.light_kwh_per_m2([plane])[0] == pytest.approx(scene.light_kwh_per_m2([plane])[0], rel=within)
