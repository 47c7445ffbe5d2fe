"""Forces beside weight, ballast and capacity; what was not described is said to be open."""

from dataclasses import replace

import pytest

from service.core.fixing import above_the_standard, fixing_forces, fixing_key, peak_pressure_pa
from service.core.fixing.wind import TERRAINS
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.fixing import Fixing
from tests import builders
from tests.requests import asked, with_array

NOTHING_ASSUMED = Assumptions({})


def assumed(pointer, value, low=None, high=None):
    row = Assumption(pointer=pointer, value=value, code="x", source="x", low=low, high=high)
    return Assumptions({pointer: row})


def forces(assumptions=NOTHING_ASSUMED, site=None, **changes):
    setup = builders.setup(arrays=(builders.array(**changes),), site=site or builders.site())
    return fixing_forces(setup, assumptions)


def test_the_force_is_coefficient_times_pressure_times_area():
    [one] = forces(fixing=Fixing(building_height_m=20.0)).arrays
    pressure = peak_pressure_pa(27.5, 20.0, TERRAINS["suburb"])
    assert one.pressure_pa.cautious == one.pressure_pa.middle == one.pressure_pa.hopeful == pytest.approx(pressure)
    assert one.area_m2 == pytest.approx(1.722 * 1.134)
    assert one.push_n.middle == pytest.approx(1.2 * pressure * one.area_m2)
    assert one.weight_n == pytest.approx(21.5 * 9.81)
    assert one.pull_over_weight.middle == pytest.approx(one.pull_n.middle / one.weight_n)


def test_the_building_s_height_counts_where_the_panel_hangs_on_one_and_nowhere_else():
    high = Fixing(building_height_m=40.0)
    assert forces(fixing=high).arrays[0].reference_height_m == 40
    assert forces(fixing=Fixing(building_height_m=4.0)).arrays[0].reference_height_m == 11
    assert forces(fixing=high, mount="ground_frame", height_above_ground_m=0.3).arrays[0].reference_height_m == 0.3


def test_what_was_assumed_widens_the_pressure_to_both_sides():
    for pointer, value, low, high in (
        ("/site/basic_wind_velocity_m_per_s", 27.5, 21.0, 36.0),
        ("/site/terrain", "suburb", None, None),
        ("/arrays/0/height_above_ground_m", 11.0, 2.5, 25.0),
    ):
        [one] = forces(assumed(pointer, value, low, high)).arrays
        assert one.pressure_pa.cautious > one.pressure_pa.middle > one.pressure_pa.hopeful


def test_a_mount_that_nobody_named_is_not_looked_at():
    found = forces(assumed("/arrays/0/mount", "free_standing"))
    assert found.arrays == ()
    assert found.not_looked_at == ("/arrays/0/mount",)


def test_a_smallest_request_is_completed_and_not_looked_at():
    completed = asked(with_array())
    found = fixing_forces(completed.setup, completed.assumptions)
    assert (found.arrays, found.not_looked_at) == ((), ("/arrays/0/mount",))


def test_a_railing_is_looked_at_with_wind_and_building_assumed_and_capacity_open():
    completed = asked(with_array(mount="hung_on_rail", height_above_ground_m=11))
    found = fixing_forces(completed.setup, completed.assumptions)
    assert found.arrays[0].reference_height_m == 14
    assert found.arrays[0].capacity_n is None
    assert "/arrays/0/fixing/capacity_per_panel_n" in found.not_looked_at
    wind = completed.assumptions.by_pointer["/site/basic_wind_velocity_m_per_s"]
    assert wind.low < wind.value < wind.high
    assert not completed.assumptions.assumed("/arrays/0/fixing/capacity_per_panel_n")


def test_what_is_open_is_named_by_what_the_mount_needs():
    rail = forces(site=builders.site(people_below=None)).not_looked_at
    assert set(rail) == {
        "/arrays/0/fixing/capacity_per_panel_n", "/arrays/0/fixing/railing_length_m", "/site/people_below",
    }  # fmt: skip
    frame = forces(mount="ground_frame", site=builders.site(people_below=None)).not_looked_at
    assert set(frame) == {"/arrays/0/fixing/capacity_per_panel_n", "/arrays/0/fixing/ballast_per_panel_kg"}
    said = Fixing(capacity_per_panel_n=900.0, railing_length_m=4.0)
    assert forces(fixing=said).not_looked_at == ()


def test_a_capacity_stands_beside_the_greater_of_push_and_pull():
    [one] = forces(fixing=Fixing(capacity_per_panel_n=2000.0)).arrays
    greatest = max(one.push_n.cautious, one.pull_n.cautious)
    assert one.capacity_used_share.cautious == pytest.approx(greatest / 2000)


def test_a_flat_frame_needs_weight_against_lifting_alone_and_a_hung_panel_none():
    [flat] = forces(mount="flat_roof", plane=builders.Plane(tilt_deg=0, azimuth_deg=180)).arrays
    assert flat.ballast_kg.middle == pytest.approx(flat.pull_n.middle / 9.81 - 21.5)
    assert flat.ballast_kg.cautious >= flat.ballast_kg.middle >= flat.ballast_kg.hopeful >= 0
    assert forces().arrays[0].ballast_kg is None


def test_friction_under_what_the_lift_leaves_holds_the_sideways_pull():
    [frame] = forces(mount="ground_frame", plane=builders.Plane(tilt_deg=30, azimuth_deg=180)).arrays
    # (weight - F cos 30) x 0.4 = F sin 30, so weight = F (cos 30 + sin 30 / 0.4) = 2.116 F
    assert frame.ballast_kg.middle == pytest.approx(2.116 * frame.pull_n.middle / 9.81 - 21.5, rel=1e-3)


def test_a_steeper_frame_slides_sooner():
    low, steep = (
        forces(mount="ground_frame", plane=builders.Plane(tilt_deg=tilt, azimuth_deg=180)).arrays[0].ballast_kg
        for tilt in (10, 35)
    )
    assert steep.middle > low.middle


def test_a_height_above_the_standard_is_said():
    tower = forces(fixing=Fixing(building_height_m=250.0))
    assert above_the_standard(tower)
    assert not above_the_standard(forces())


def test_every_array_is_told_in_its_order():
    setup = builders.setup()
    found = fixing_forces(setup, NOTHING_ASSUMED)
    assert [one.name for one in found.arrays] == ["left", "right"]
    swapped = fixing_forces(replace(setup, arrays=setup.arrays[::-1]), NOTHING_ASSUMED)
    assert {one.name: one.push_n for one in found.arrays} == {one.name: one.push_n for one in swapped.arrays}


def told(found):
    return found.arrays, found.not_looked_at


def test_forces_hang_on_nothing_that_the_key_leaves_out():
    class Untouched:
        def __getattr__(self, name):
            raise AssertionError(name)

    setup = builders.setup()
    parts = ("inverter", "socket_circuit", "household", "meter", "tariff", "outlay", "money", "storage")
    alone = replace(setup, **dict.fromkeys(parts, Untouched()))
    assert told(fixing_forces(alone, NOTHING_ASSUMED)) == told(fixing_forces(setup, NOTHING_ASSUMED))
    home = assumed("/household/demand_kwh_per_year", 1900, 900, 4000)
    assert fixing_key(alone, NOTHING_ASSUMED) == fixing_key(setup, NOTHING_ASSUMED) == fixing_key(setup, home)


@pytest.mark.parametrize(
    ("parts", "assumptions"),
    [
        ({"site": builders.site(terrain="open_sea")}, NOTHING_ASSUMED),
        ({"arrays": (builders.array(mount="wall"),)}, NOTHING_ASSUMED),
        ({"arrays": (builders.array(fixing=Fixing(capacity_per_panel_n=900.0)),)}, NOTHING_ASSUMED),
        ({}, assumed("/site/terrain", "suburb")),
        ({}, assumed("/arrays/0/height_above_ground_m", 11.0, 2.5, 25.0)),
    ],
)
def test_whatever_moves_the_forces_moves_the_key(parts, assumptions):
    first, then = builders.setup(arrays=(builders.array(),)), builders.setup(**{"arrays": (builders.array(),), **parts})
    assert told(fixing_forces(then, assumptions)) != told(fixing_forces(first, NOTHING_ASSUMED))
    assert fixing_key(then, assumptions) != fixing_key(first, NOTHING_ASSUMED)
