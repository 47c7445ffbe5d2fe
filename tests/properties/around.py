"""What can stand around a panel, and the skies above it: for promises about light and about energy."""

from dataclasses import replace

from hypothesis import strategies as st

from service.core.model.place import Cover, Overhang, Plane, Shade, SideWall, SkylinePoint
from tests.builders import array
from tests.skies import mixed_year

SKIES = {
    "54 N": mixed_year(54.2, 12.3),
    "34 S": mixed_year(-34.0, 20.0, "Africa/Johannesburg", 2),
    "equator": mixed_year(0.5, 32.0, "Africa/Kampala", 3),
}

skies = st.sampled_from(list(SKIES.values()))
shares = st.floats(0, 1)
planes = st.builds(Plane, tilt_deg=st.floats(0, 90), azimuth_deg=st.floats(0, 360))
points = st.builds(SkylinePoint, azimuth_deg=st.floats(0, 360), height_deg=st.floats(0, 60))
slabs = st.builds(Overhang, above_top_edge_m=st.floats(0, 4), reaches_out_m=st.floats(0, 3))
walls = st.builds(
    SideWall, side=st.sampled_from(["left", "right"]), distance_m=st.floats(0, 3), reaches_out_m=st.floats(0, 3)
)
clocks = st.builds("{:02d}:{:02d}".format, st.integers(0, 23), st.integers(0, 59))
shadows = st.builds(
    Shade,
    cause=st.just("thing"),
    edge=st.sampled_from(["soft", "hard"]),
    months=st.lists(st.integers(1, 12), min_size=1, max_size=6, unique=True).map(tuple),
    from_clock=clocks,
    to_clock=clocks,
    blocked_share=shares,
)
covers = st.none() | st.builds(Cover, material=st.just("glass"), light_through_share=shares)


def azimuth_of(point: SkylinePoint) -> float:
    return point.azimuth_deg


any_skylines = st.lists(points, max_size=4)
# A mirror turns the order of the two sides of an edge, and north is where the ring begins: keep off both.
points_off_north = st.builds(SkylinePoint, azimuth_deg=st.integers(1, 359), height_deg=st.floats(0, 60))


@st.composite
def surrounded_arrays(draw, skylines=any_skylines):
    return array(
        plane=draw(planes),
        skyline=tuple(draw(skylines)),
        overhang=draw(st.none() | slabs),
        side_walls=tuple(draw(st.lists(walls, max_size=2))),
        shade=tuple(draw(st.lists(shadows, max_size=2))),
        cover=draw(covers),
        facing_reflectance_share=draw(st.none() | shares),
    )


def mirrored(one, turn):
    """The array with its plane, skyline and walls on the other side of a line through the panel."""
    return replace(
        one,
        plane=replace(one.plane, azimuth_deg=turn(one.plane.azimuth_deg) % 360.0),
        skyline=tuple(replace(p, azimuth_deg=turn(p.azimuth_deg) % 360.0) for p in reversed(one.skyline)),
        side_walls=tuple(replace(w, side={"left": "right", "right": "left"}[w.side]) for w in one.side_walls),
    )
