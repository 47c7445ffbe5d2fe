"""Lots at the door: can all that is said of a panel, and of its mates, be true at once?"""

from collections.abc import Iterator

from hypothesis import example, given

from service.core.pickup import PanelSeen, Quantity, Seen, light_not_known, panels_seen
from tests.core.pickup.door import door, measured, sky
from tests.properties.test_worth_at_the_door import DOORS, LOTS, TRUE, lot_of

# Lots that are not alike: halves under a guess, a sick one with a worse panel, one below two of which nobody can say.
HALVES = door(sky(720.0)), [(1.0, 0.9), (1.0, 0.9), (1.0, 1.2), (1.0, 1.2)], 1.0
SICK = door(measured(700.0, 0.15)), [(1.0, 0.42), (1.0, 0.43), (1.0, 0.42), (1.0, 0.26)], 1.0
SCATTERED = door(light_not_known()), [(1.0, 1.0), (1.0, 1.2), (1.0, 1.35)], 1.3
DULL = door(sky(50.0)), [(1.016, 1.0), (0.969, 1.0), (0.961, 1.0), (0.75, 1.0)], 1.0
VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
LESS_LIGHT = {"whole_lot_low", "measure_low", "turned_to_the_sun"}
MORE_LIGHT = {"more_light_than_thought", "more_light_than_measured"}
LOW = {
    "lower_than_the_lot",
    "current_low",
    "voltage_low",
    "bypass_section_lost",
    "no_current",
    "no_reading",
    "no_voltage_yet_current",
}
# Said of how a panel stands beside its lot, and how it must stand then.
OF_THE_LOT = {
    "lower_than_the_lot": {"low"},
    "higher_than_the_lot": {"high"},
    "whole_lot_low": {"agrees"},
    "measure_low": {"agrees"},
    "lot_scatters": {"scattered"},
    "most_outdone": {"outdone"},
    "no_current_on_any": {"silent"},
}
# Two causes of one reading that go together: all others exclude one another.
TOGETHER = (
    {"lower_than_the_lot", "current_low"},
    {"more_than_told_light", "light_too_low"},
    {"lower_than_the_lot", "voltage_low"},
    {"lower_than_the_lot", "bypass_section_lost"},
    {"lower_than_the_lot", "wrong_panel.other_cells"},
    {"bypass_section_lost", "voltage_low"},
    {"bypass_section_lost", "wrong_panel.other_cells"},
)
NEVER_SOUND = {"low", "high", "scattered", "outdone", "silent", "not_compared"}


def codes_of(one: Quantity) -> set[str]:
    return {why.code for why in one.causes}


def read_on(seen: PanelSeen) -> Iterator[Quantity]:
    return (one for one in seen.quantities if one.what in {VOC, ISC})


@example(*HALVES)
@example(*SICK)
@example(*SCATTERED)
@example(*DULL)
@given(DOORS, LOTS, TRUE)
def test_of_one_reading_no_two_things_are_said_that_exclude_each_other(at, shares, true_share):
    for seen in panels_seen(at, lot_of(at, shares, true_share)):
        for one in read_on(seen):
            said = codes_of(one)
            assert len(said) < 2 or said in TOGETHER
            assert (one.verdict is Seen.AS_EXPECTED) is not bool(said)


@example(*HALVES)
@example(*SICK)
@example(*SCATTERED)
@example(*DULL)
@given(DOORS, LOTS, TRUE)
def test_what_is_said_of_the_lot_is_how_the_panel_stands_beside_it(at, shares, true_share):
    for seen in panels_seen(at, lot_of(at, shares, true_share)):
        for one in read_on(seen):
            stands = seen.lot[one.what]
            for code in codes_of(one) & set(OF_THE_LOT):
                assert stands in OF_THE_LOT[code]
            if one.verdict is Seen.AS_EXPECTED:
                assert stands not in NEVER_SOUND


@example(*HALVES)
@example(*SICK)
@example(*SCATTERED)
@example(*DULL)
@given(DOORS, LOTS, TRUE)
def test_a_low_panel_is_not_told_to_be_high_nor_one_within_the_range_to_be_out_of_it(at, shares, true_share):
    for seen in panels_seen(at, lot_of(at, shares, true_share)):
        for one in read_on(seen):
            said = codes_of(one)
            assert one.measured is not None
            assert one.low is not None
            assert one.high is not None
            if said & {"current_low", "voltage_low", "whole_lot_low", "measure_low", "turned_to_the_sun"}:
                assert one.measured < one.low
            if said & {"wrong_panel.current_high", "wrong_panel.voltage_high", "cooler_than_thought", *MORE_LIGHT}:
                assert one.measured > one.high or seen.lot[one.what] == "high"


@example(*HALVES)
@example(*SICK)
@example(*SCATTERED)
@example(*DULL)
@given(DOORS, LOTS, TRUE)
def test_the_light_of_one_visit_is_not_both_more_and_less_than_was_told(at, shares, true_share):
    found = panels_seen(at, lot_of(at, shares, true_share))
    said = {code for seen in found for one in read_on(seen) for code in codes_of(one)}
    assert not (said & LESS_LIGHT and said & MORE_LIGHT)


@example(*HALVES)
@example(*SICK)
@example(*SCATTERED)
@example(*DULL)
@given(DOORS, LOTS, TRUE)
def test_never_are_all_of_a_lot_lower_than_the_lot_and_alike_means_all(at, shares, true_share):
    found = panels_seen(at, lot_of(at, shares, true_share))
    stands = [seen.lot[ISC] for seen in found]
    said = [codes_of(one) for seen in found for one in read_on(seen) if one.what == ISC]
    assert not all("lower_than_the_lot" in codes for codes in said)
    if any("whole_lot_low" in codes for codes in said):
        assert set(stands) == {"agrees"}
    if any("most_outdone" in codes for codes in said):
        assert not set(stands) <= {"outdone"}


@example(*HALVES)
@example(*SICK)
@example(*SCATTERED)
@example(*DULL)
@given(DOORS, LOTS, TRUE)
def test_verdict_and_worth_of_a_panel_go_together(at, shares, true_share):
    for seen in panels_seen(at, lot_of(at, shares, true_share)):
        verdicts = {one.verdict for one in seen.quantities}
        if seen.verdict is Seen.AS_EXPECTED:
            assert verdicts == {Seen.AS_EXPECTED}
            assert seen.worth.share == 1.0
        elif seen.verdict is Seen.CANNOT_TELL:
            assert Seen.SUSPICIOUS not in verdicts
            assert seen.worth.share is None
        else:
            assert {why.code for why in seen.causes} & LOW or seen.worth.share is None
            assert seen.worth.share is None or seen.worth.share < 1.0
