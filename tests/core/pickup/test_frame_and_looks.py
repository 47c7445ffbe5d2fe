"""Is it seen what kills used panels: a leak to the frame, a dead bypass diode, a back that insulates no longer?

A leak of R megohms, a meter of Rm and a panel of U volts: both readings together are U Rm / (Rm + R), divided as the
leak divides the string (Ohm's law). 40 megohms times the area is what IEC 61215 and 61730 want (from memory).
"""

import pytest

from service.core.pickup import Between, Seen, light_indoors
from service.core.pickup.frame import leak_mohm, most_reading_v
from tests.core.pickup.door import codes, door, one, reading

TEN = Between.exactly(10.0)


@pytest.mark.parametrize("mohm", [0.5, 5.0, 60.0])
@pytest.mark.parametrize("place", [0.1, 0.5, 0.9])
def test_the_leak_that_made_the_readings_is_found_again(mohm: float, place: float) -> None:
    together = 40.0 * 10.0 / (10.0 + mohm)
    plus, minus = place * together, (1 - place) * together
    assert leak_mohm(40.0, plus + minus, 10.0) == pytest.approx(mohm)


def test_a_sound_insulation_reads_less_than_the_most() -> None:
    """1.6 m2 want 25 megohms: 40 V x 10 / (10 + 25) = 11.43 V."""
    assert most_reading_v(40.0, 1.6, 10.0) == pytest.approx(11.43, abs=0.005)


@pytest.mark.parametrize("wetted", [False, True])
def test_a_leak_to_the_frame_is_not_worth_any_price(wetted: bool) -> None:
    frame = reading(plus_to_frame_v=12.0, frame_to_minus_v=10.0, wetted=wetted, meter_input_mohm=TEN)
    seen = one(door(), reading(voc=38.9, isc=7.0), frame)
    assert codes(seen) == ["leaks_frame_wetted" if wetted else "leaks_frame_dry"]
    assert seen.worth.share == 0.0
    assert seen.worth.because == "not_at_any_price"


def test_a_frame_that_floats_is_as_it_should_be() -> None:
    frame = reading(plus_to_frame_v=0.2, frame_to_minus_v=0.1, wetted=True, meter_input_mohm=TEN)
    assert one(door(), reading(voc=38.9, isc=7.0), frame).verdict is Seen.AS_EXPECTED


def test_one_lead_alone_does_not_clear_the_frame() -> None:
    frame = reading(plus_to_frame_v=0.2, meter_input_mohm=TEN)
    assert codes(one(door(), reading(voc=38.9), frame)) == ["other_lead_not_read"]


def test_a_frame_read_without_light_is_not_cleared() -> None:
    frame = reading(plus_to_frame_v=0.0, frame_to_minus_v=0.0, meter_input_mohm=TEN)
    assert one(door(light_indoors()), frame).verdict is Seen.CANNOT_TELL
    assert "frame_without_light" in codes(one(door(), reading(voc=0.2), frame))


def test_a_reading_that_hangs_on_the_meter_asks_for_its_resistance() -> None:
    frame = reading(plus_to_frame_v=2.0, frame_to_minus_v=2.0)
    assert codes(one(door(), reading(voc=38.9), frame)) == ["meter_resistance_not_known"]


@pytest.mark.parametrize(
    ("test", "code"),
    [
        ({"bypass_over_range": True}, "bypass_open"),
        ({"bypass_forward_v": 2.9}, "bypass_open"),
        ({"bypass_forward_v": 0.05}, "bypass_shorted"),
        ({"back_state": "chalky"}, "back_chalky"),
        ({"back_state": "cracked"}, "back_cracked"),
        ({"back_state": "burnt"}, "back_burnt"),
        ({"glass_state": "cracked"}, "glass_cracked"),
    ],
)
def test_what_meter_and_eyes_find_outweighs_good_volts_and_amperes(test: dict[str, object], code: str) -> None:
    seen = one(door(), reading(voc=38.9, isc=7.0, **test))
    assert seen.verdict is Seen.SUSPICIOUS
    assert codes(seen) == [code]
    assert seen.worth.share is not None
    assert seen.worth.share <= 0.5


def test_it_is_seen_indoors_too_that_the_back_is_cracked() -> None:
    seen = one(door(light_indoors()), reading(voc=2.0, back_state="cracked"))
    assert seen.verdict is Seen.SUSPICIOUS
    assert seen.worth.because == "not_at_any_price"


def test_three_sound_diodes_in_a_row_pass() -> None:
    assert one(door(), reading(voc=38.9, isc=7.0, bypass_forward_v=0.9)).verdict is Seen.AS_EXPECTED


@pytest.mark.parametrize(("connector", "code"), [("older_unlocked", "old_connectors"), ("bare", "bare_leads")])
def test_connectors_without_a_lock_are_told(connector: str, code: str) -> None:
    assert codes(one(door(connector=connector), reading(voc=38.9, isc=7.0))) == [code]
