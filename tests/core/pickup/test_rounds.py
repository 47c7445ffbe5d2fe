"""Do readings of one panel that cannot all be true of it get told as a contradiction?"""

import pytest

from service.core.pickup import Between, Seen, light_indoors, panels_seen
from tests.core.pickup.door import codes, door, measured, one, reading, sky


def test_two_voltages_of_one_panel_that_contradict_each_other_are_told_in_any_order() -> None:
    high, low = reading(voc=38.9, isc=7.0), reading(voc=26.0, isc=7.0)
    for both in ((high, low), (low, high)):
        seen = one(door(), *both)
        assert seen.verdict is Seen.SUSPICIOUS
        [told] = [cause for cause in seen.causes if cause.code == "rounds_disagree"]
        assert told.facts == {"quantity": "voltage", "least": 26.0, "most": 38.9}


def test_a_contradiction_alone_leaves_the_panel_open() -> None:
    """Either voltage is expected of a label that was read roughly; of one panel only one can be true."""
    rough = door(open_circuit_voltage_v=Between(low=37.0, likely=40.6, high=45.0))
    seen = one(rough, reading(voc=42.0, isc=7.0), reading(voc=36.5, isc=7.0))
    assert (seen.verdict, codes(seen), seen.worth.share) == (Seen.CANNOT_TELL, ["rounds_disagree"], None)
    alike = one(rough, reading(voc=42.0, isc=7.0), reading(voc=40.0, isc=6.6))
    assert (alike.verdict, codes(alike)) == (Seen.AS_EXPECTED, [])


@pytest.mark.parametrize(("second", "told"), [(38.0, False), (36.0, False), (34.0, True)])
def test_what_warmth_does_between_two_rounds_is_no_contradiction(second: float, told: bool) -> None:
    assert ("rounds_disagree" in codes(one(door(), reading(voc=38.9), reading(voc=second)))) is told


def test_a_shadow_dull_light_and_other_panels_contradict_nothing() -> None:
    shaded, clear = reading(voc=31.0, isc=2.0, shaded=True), reading(voc=38.9, isc=7.0)
    assert codes(one(door(), shaded, clear)) == []
    for light in (light_indoors(), measured(30.0)):
        assert "rounds_disagree" not in codes(one(door(light), reading(voc=20.0), reading(voc=12.0)))
    two = panels_seen(door(sky(720.0)), [reading("a", voc=38.9), reading("b", voc=26.0)])
    assert not any("rounds_disagree" in codes(seen) for seen in two)


def test_a_lost_contact_is_no_second_value() -> None:
    seen = one(door(), reading(voc=0.0, isc=0.0), reading(voc=38.9, isc=7.0))
    assert "rounds_disagree" not in codes(seen)
