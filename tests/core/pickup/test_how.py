"""Is nobody told to do what blows a fuse, and do the figures told agree with the verdicts?

1.25 x the short-circuit current is what codes count for sun beside a cloud's edge (IEC 62548, NEC 690.8; from memory);
5 % is the tolerance of a label (EN 50380, from memory).
"""

from dataclasses import replace

import pytest

from service.core.pickup import (
    Between,
    Door,
    Light,
    Multimeter,
    Seen,
    expected_at,
    how_to_measure,
    light_indoors,
    light_not_known,
    most_current_a,
)
from tests.core.pickup.door import codes, door, measured, one, ratings, reading, sky

ANY_LIGHT = [measured(199.0), measured(201.0), measured(450.0), measured(850.0), sky(300.0), sky(900.0),
             light_indoors(), light_not_known()]  # fmt: skip


def told(at: Door, code: str) -> dict[str, object] | None:
    found = [one.facts for one in how_to_measure(at, expected_at(at)) if one.code == code]
    return dict(found[0]) if found else None


def with_meter(light: Light, limit_a: float) -> Door:
    return replace(door(light), multimeter=Multimeter(current_limit_a=limit_a, voltage_limit_v=600.0, clamps_dc=False))


@pytest.mark.parametrize("light", ANY_LIGHT)
@pytest.mark.parametrize(("limit_a", "bears"), [(10.0, False), (12.9, False), (13.0, True), (20.0, True)])
def test_the_meters_fuse_is_judged_by_the_most_sun_there_can_be(light: Light, limit_a: float, bears: bool) -> None:
    """9.85 A x 1.05 x 1.25 = 12.93 A, whatever the light is now: clouds pass."""
    at = with_meter(light, limit_a)
    assert (told(at, "current") is not None) is bears
    assert (told(at, "no_current_with_this_meter") is not None) is not bears
    assert most_current_a(at.ratings) == pytest.approx(12.928, abs=0.001)


def test_the_most_current_is_rounded_up_so_that_it_never_seems_within_the_limit() -> None:
    found = told(with_meter(measured(700.0), 12.9), "no_current_with_this_meter")
    assert found is not None
    assert found["most"] == 13.0


def test_light_on_the_rear_counts_for_fuse_and_range_but_is_not_expected() -> None:
    """A rear of 0.8 in light of 0.3: 24 % more at most."""
    two_sided, closed = door(rear_share=0.24), door()
    assert most_current_a(two_sided.ratings) == pytest.approx(1.24 * most_current_a(ratings()))
    with_rear, without = (expected_at(at).current for at in (two_sided, closed))
    assert with_rear is not None
    assert without is not None
    assert (with_rear.likely, with_rear.low) == (without.likely, without.low)
    assert with_rear.high > 1.2 * without.likely


@pytest.mark.parametrize("area_m2", [0.6, 1.6, 1.9, 2.6])
@pytest.mark.parametrize(("wetted", "figure"), [(True, "most"), (False, "dry")])
def test_the_volts_told_for_the_frame_are_those_that_it_is_judged_by(area_m2: float, wetted: bool, figure: str) -> None:
    at = door(area_m2=Between.exactly(area_m2))
    expected = expected_at(at).voltage
    facts = told(at, "volts_to_the_frame")
    assert facts is not None
    assert expected is not None
    limit = float(str(facts[figure]))
    for volts, verdict in ((limit - 0.1, {Seen.AS_EXPECTED}), (limit + 0.1, {Seen.SUSPICIOUS, Seen.CANNOT_TELL})):
        frame = reading(plus_to_frame_v=volts / 2, frame_to_minus_v=volts / 2, wetted=wetted,
                        meter_input_mohm=Between.exactly(10.0))  # fmt: skip
        seen = one(at, reading(voc=expected.likely, isc=7.0), frame)
        assert seen.verdict in verdict, codes(seen)


@pytest.mark.parametrize(("sections", "low", "high"), [(1, 0.15, 0.75), (2, 0.3, 1.5), (3, 0.45, 2.25), (4, 0.6, 3.0)])
def test_the_volts_told_for_the_diodes_are_counted_by_the_row(sections: int, low: float, high: float) -> None:
    at = door(sections=Between.exactly(float(sections)))
    facts = told(at, "diodes_in_the_dark")
    assert facts is not None
    assert (facts["schottky_low"], facts["junction_high"]) == (low, high)
    for volts, code in ((low - 0.01, "bypass_shorted"), (high + 0.01, "bypass_open")):
        assert code in codes(one(at, reading(isc=7.0, bypass_forward_v=volts)))


def steps(limit_a: float, limit_v: float, *, clamp: bool) -> list[str]:
    meter = Multimeter(current_limit_a=limit_a, voltage_limit_v=limit_v, clamps_dc=clamp)
    at = replace(door(), multimeter=meter)
    return [one.code for one in how_to_measure(at, expected_at(at))]


VOLTS_OF_THE_METER = {"voltage", "volts_to_the_frame", "diodes_in_the_dark"}
AMPERES_OF_THE_METER = {"current", "between_readings"}


@pytest.mark.parametrize("limit_v", [20.0, 30.0, 46.0, 60.0, 600.0])
@pytest.mark.parametrize("limit_a", [0.4, 10.0, 13.0, 20.0])
@pytest.mark.parametrize("clamp", [True, False])
def test_no_step_tells_to_do_what_the_meter_does_not_bear(limit_a: float, limit_v: float, clamp: bool) -> None:
    """At -10 C and 1000 W/m2 the label of 40.6 V gives 44.9, with its tolerance 46.5 at most; 12.93 A."""
    told = set(steps(limit_a, limit_v, clamp=clamp))
    bears_volts, bears_amperes = limit_v > 47, limit_a > 12.93
    assert VOLTS_OF_THE_METER & told == (VOLTS_OF_THE_METER if bears_volts else set())
    assert ("no_voltage_with_this_meter" in told) is not bears_volts
    through_it = bears_volts and bears_amperes and not clamp
    assert AMPERES_OF_THE_METER & told == (AMPERES_OF_THE_METER if through_it else set())
    assert ("current_by_clamp" in told) is clamp  # it touches no lead
    assert ("never_part_under_sun" in told) is (clamp or bears_volts)


def test_a_meter_that_bears_less_than_a_dull_sky_gives_is_not_told_to_wait_for_less_light() -> None:
    """Away from the sun some three tenths of 12.93 A are left."""
    for limit_a, away in ((0.4, False), (3.8, False), (4.0, True), (10.0, True)):
        facts = told(with_meter(measured(700.0), limit_a), "no_current_with_this_meter")
        assert facts is not None
        assert ("less_light" not in facts) is away
