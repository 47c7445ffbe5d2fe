"""Promises of the wind on the panels that hold for any set."""

from dataclasses import fields, replace

from hypothesis import given
from hypothesis import strategies as st

from service.core.fixing import TERRAINS, ArrayForces, FixingForces, fixing_forces, peak_pressure_pa
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Verdict
from service.core.model.fixing import Fixing
from service.core.model.place import Plane
from tests import builders

MOUNTS = st.sampled_from(
    ["hung_on_rail", "behind_rail", "balcony_floor", "wall", "fence", "ground_frame", "flat_roof", "sloped_roof"]
)
WORDS = list(TERRAINS)
WIND = "/site/basic_wind_velocity_m_per_s"


@st.composite
def setups(draw: st.DrawFn) -> Setup:
    """One array of any mount, tilt, size and height, in any terrain."""
    height = draw(st.floats(0, 300))
    fixing = Fixing(
        building_height_m=draw(st.none() | st.floats(0, 300)),
        capacity_per_panel_n=draw(st.none() | st.floats(10, 1e5)),
        ballast_per_panel_kg=draw(st.none() | st.floats(0, 2000)), railing_height_m=draw(st.none() | st.floats(0.2, 3)),
    )  # fmt: skip
    panel = builders.panel(length_mm=draw(st.floats(100, 3000)), width_mm=draw(st.floats(100, 2000)),
                           weight_kg=draw(st.floats(0.5, 60)))  # fmt: skip
    array = builders.array(
        mount=draw(MOUNTS), plane=Plane(tilt_deg=draw(st.floats(0, 90)), azimuth_deg=180), panel=panel, fixing=fixing,
        height_above_ground_m=height, count=draw(st.integers(1, 12)),
    )  # fmt: skip
    site = builders.site(
        terrain=draw(st.sampled_from(WORDS)), basic_wind_velocity_m_per_s=draw(st.floats(10, 80)),
        people_below=draw(st.sampled_from([True, False, None])),
    )  # fmt: skip
    return builders.setup(arrays=(array,), site=site)


def forces(setup: Setup, assumptions: Assumptions | None = None) -> ArrayForces:
    [one] = fixing_forces(setup, assumptions or Assumptions({})).arrays
    return one


def never_less(after: ArrayForces, before: ArrayForces) -> None:
    for name in ("push_n", "pull_n"):
        one, other = getattr(after, name), getattr(before, name)
        for end in ("cautious", "middle", "hopeful"):
            assert getattr(one, end) >= getattr(other, end) - 1e-9


@given(setups(), st.floats(0, 40))
def test_faster_wind_never_means_less_load(setup: Setup, faster: float) -> None:
    wind = min(setup.site.basic_wind_velocity_m_per_s + faster, 80.0)
    never_less(forces(replace(setup, site=replace(setup.site, basic_wind_velocity_m_per_s=wind))), forces(setup))


@given(setups(), st.floats(0, 100))
def test_a_higher_panel_on_a_higher_building_never_means_less_load(setup: Setup, higher: float) -> None:
    array = setup.arrays[0]
    assert array.fixing is not None
    building = None if array.fixing.building_height_m is None else array.fixing.building_height_m + higher
    up = replace(array, height_above_ground_m=array.height_above_ground_m + higher,
                 fixing=replace(array.fixing, building_height_m=building))  # fmt: skip
    never_less(forces(replace(setup, arrays=(up,))), forces(setup))


@given(st.floats(10, 80), st.floats(0, 300))
def test_rougher_land_never_means_more_pressure(wind: float, height_m: float) -> None:
    pressures = [peak_pressure_pa(wind, height_m, roughness) for roughness in TERRAINS.values()]
    assert pressures == sorted(pressures, reverse=True)


@given(setups(), st.floats(0, 1), st.floats(1, 3))
def test_every_band_is_ordered_and_an_assumption_only_widens_it(setup: Setup, low: float, high: float) -> None:
    wind = setup.site.basic_wind_velocity_m_per_s
    row = Assumption(pointer=WIND, value=wind, code="x", source="x", low=low * wind, high=high * wind)
    given, open_wind = forces(setup), forces(setup, Assumptions({WIND: row}))
    for name in ("pressure_pa", "push_n", "pull_n", "pull_over_weight", "capacity_used_share", "ballast_kg"):
        for one in (given, open_wind):
            band = getattr(one, name)
            assert band is None or band.cautious >= band.middle >= band.hopeful >= 0
    assert open_wind.push_n.cautious >= given.push_n.cautious - 1e-9
    assert open_wind.push_n.hopeful <= given.push_n.hopeful + 1e-9


@given(setups())
def test_no_answer_on_fixing_holds_a_verdict(setup: Setup) -> None:
    assert not {"verdict", "likely", "ok"} & {f.name for kind in (ArrayForces, FixingForces) for f in fields(kind)}
    said = {value for note in forces(setup).notes for value in note.facts.values() if isinstance(value, str)}
    assert not said & {str(verdict) for verdict in Verdict}
