"""The changes that a set admits, and what stays assumed with one made."""

from dataclasses import replace

from service.core.appraisal.changes import assumed_after, changes_of
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.patch import Operation, patched
from service.core.model.place import Plane
from tests.builders import array, inverter, one_input, setup

NOTHING_ASSUMED = Assumptions({})
THREE = inverter(inputs=(one_input(),) * 3, input_count=3, ac_power_w=800, set_limit_w=800)
FLAT = Plane(tilt_deg=20, azimuth_deg=180)


def by_code(of, assumptions=NOTHING_ASSUMED):
    return {ways[0].code: ways for ways in changes_of(of, assumptions)}


def assumed(*pointers):
    return Assumptions.of(Assumption(pointer=one, value=0.01, code="usual", source="trade") for one in pointers)


def pointers(known):
    assert all(pointer == one.pointer for pointer, one in known.by_pointer.items())
    return set(known.by_pointer)


def test_the_last_panel_cannot_be_taken_away():
    assert "one_panel_fewer" not in by_code(setup(arrays=(array(),), inverter=THREE))


def test_a_panel_is_added_to_a_free_input_first_and_then_as_the_array_is_wired():
    two = setup(arrays=(array(count=2, joined="series"),), inverter=THREE)
    own, wired = by_code(two)["one_panel_more"]
    assert [(one.input, one.count) for one in patched(two, own.patch).arrays] == [(1, 2), (2, 1)]
    assert [(one.input, one.count) for one in patched(two, wired.patch).arrays] == [(1, 3)]
    eight = setup(arrays=tuple(array(dirt_share=n / 100) for n in range(8)), inverter=THREE)
    assert all(way.facts.get("variant") != "own_input" for ways in changes_of(eight, NOTHING_ASSUMED) for way in ways)


def test_a_roof_is_not_stood_upright_and_an_upright_panel_neither():
    assert "upright" in by_code(setup(arrays=(array(mount="ground_frame", plane=FLAT),)))
    assert "upright" not in by_code(setup(arrays=(array(mount="sloped_roof", plane=FLAT),)))
    assert "upright" not in by_code(setup(arrays=(array(mount="wall", plane=Plane(tilt_deg=90, azimuth_deg=180)),)))


def test_only_what_hangs_on_the_railing_is_leaned_out_and_only_what_is_behind_is_hung_outside():
    upright = Plane(tilt_deg=90, azimuth_deg=180)
    found = {
        mount: set(by_code(setup(arrays=(array(mount=mount, plane=upright),))))
        for mount in ("hung_on_rail", "behind_rail", "wall", "ground_frame")
    }
    assert {mount for mount, codes in found.items() if "leaned_out" in codes} == {"hung_on_rail"}
    assert {mount for mount, codes in found.items() if "outside_rail" in codes} == {"behind_rail"}


def test_panels_get_inputs_of_their_own_only_where_there_are_enough():
    def with_panels(count):
        return setup(arrays=(array(count=count, joined="series"),), inverter=THREE)

    assert "own_inputs" not in by_code(with_panels(1))
    assert "own_inputs" not in by_code(with_panels(4))
    three = with_panels(3)
    (own,) = by_code(three)["own_inputs"]
    assert [(one.input, one.count) for one in patched(three, own.patch).arrays] == [(1, 1), (2, 1), (3, 1)]


def test_mismatch_moves_with_the_wiring_where_nobody_said_it_and_stays_where_somebody_did():
    two = setup(arrays=(array(count=2, joined="series", mismatch_share=0.01),), inverter=THREE)

    def after(assumptions):
        (own,) = by_code(two, assumptions)["own_inputs"]
        return [one.mismatch_share for one in patched(two, own.patch).arrays]

    assert after(assumed("/arrays/0/mismatch_share")) == [0.0, 0.0]
    assert after(NOTHING_ASSUMED) == [0.01, 0.01]


def test_a_copied_array_is_as_uncertain_as_the_first_and_what_is_put_is_known():
    patch = (
        Operation(op="copy", path="/arrays/-", source="/arrays/0"),
        Operation(op="add", path="/arrays/2/input", value=3),
    )
    known = assumed("/arrays/0/input", "/arrays/0/panel/rated_power_w", "/arrays/1/input", "/inverter/set_limit_w")
    assert pointers(assumed_after(known, patch, 2)) == pointers(known) | {"/arrays/2/panel/rated_power_w"}


def test_what_was_assumed_of_an_array_goes_with_it_and_the_others_move_up():
    known = assumed("/arrays/0/input", "/arrays/1/input", "/arrays/2/panel/age_years", "/site/elevation_m")
    gone = assumed_after(known, (Operation(op="remove", path="/arrays/1"),), 3)
    assert pointers(gone) == {"/arrays/0/input", "/arrays/1/panel/age_years", "/site/elevation_m"}


def test_names_make_no_other_array():
    one = array(name="left", input=1)
    alike = setup(arrays=(one, replace(one, name="right", input=2)), inverter=THREE)
    assert [ways[0].code for ways in changes_of(alike, NOTHING_ASSUMED)].count("one_panel_fewer") == 1
