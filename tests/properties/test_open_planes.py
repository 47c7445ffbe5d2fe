"""What can be promised where a plane is left open, and what cannot.

A plane is settled by the light of the year. So it is the light in the settled plane that no obstacle raises: of a free
panel the most light within the bounds (up to what the search may miss), of a face that nobody told the middle one of
all faces' light, which falls when each falls. Energy follows where the input takes what the panel gives: planes of
equal light then differ by heat and by dim light, by less than a per cent. It need not follow where the a.c. limit or
the input's start voltage or window decides: an obstacle may turn the panel to a side where less light does more. In a
plane that stays, energy never rises: ``test_energy_around_a_panel``.
"""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.energy import direct_current
from service.core.model.place import SkylinePoint
from service.core.sky import skyline_height_deg
from service.core.tilt import best_plane, bounds_by_mount, year_light_kwh_per_m2
from tests.builders import array, inverter, one_input, setup
from tests.properties.around import shadows, skies, slabs, surrounded_arrays, walls

REACHED = inverter(inputs=(one_input(tracking_min_v=5, tracking_max_v=1000, start_voltage_v=5, max_current_a=60),) * 2)
FREE, UNTOLD = ["ground_frame", "flat_roof"], ["wall", "hung_on_rail", "sloped_roof"]
SEARCH_MISSES = 0.006  # see best_plane: 0.5 % beside slabs and walls; grouped hours some tenths more
HEAT_AND_DIM_LIGHT = 0.01


@st.composite
def obstacles(draw):
    """A change of an array that takes light away."""
    kind = draw(st.sampled_from(["point", "slab", "wall", "shadow"]))
    if kind == "point":
        azimuth, above = draw(st.floats(0, 359)), draw(st.floats(0, 40))
        return lambda one: replace(one, skyline=(*one.skyline, raised(one.skyline, azimuth, above)))
    if kind == "slab":
        slab = draw(slabs)
        return lambda one: one if one.overhang is not None else replace(one, overhang=slab)
    if kind == "wall":
        wall = draw(walls)
        return lambda one: replace(one, side_walls=(*one.side_walls, wall))
    shadow = draw(shadows)
    return lambda one: replace(one, shade=(*one.shade, shadow))


def raised(skyline, azimuth, above):
    return SkylinePoint(azimuth_deg=azimuth, height_deg=min(float(skyline_height_deg(skyline, azimuth)) + above, 90.0))


def settled(one, sky):
    return replace(one, plane=best_plane(one, sky, 0.2, bounds_by_mount(one.mount)))


def light(one, sky):
    return year_light_kwh_per_m2(one, sky, one.plane, 0.2)


def dc_kwh(one, sky):
    asked = setup(arrays=(replace(one, panel=array().panel),), inverter=REACHED)
    return float(direct_current(asked, sky)[0].dc_w.sum()) / 1000.0


@settings(max_examples=8)
@given(skies, surrounded_arrays(), st.sampled_from(FREE + UNTOLD), obstacles())
def test_an_obstacle_never_brings_more_light_into_the_settled_plane(sky, one, mount, add):
    one = replace(one, mount=mount)
    before, after = settled(one, sky), settled(add(one), sky)
    assert light(after, sky) <= light(before, sky) * (1 + SEARCH_MISSES) + 1e-6


@settings(max_examples=8)
@given(skies, surrounded_arrays(), st.sampled_from(FREE + UNTOLD), obstacles())
def test_an_obstacle_brings_more_energy_at_most_by_heat_where_the_input_takes_all(sky, one, mount, add):
    one = replace(one, mount=mount)
    before, after = settled(one, sky), settled(add(one), sky)
    assert dc_kwh(after, sky) <= dc_kwh(before, sky) * (1 + HEAT_AND_DIM_LIGHT) + 1e-6
