"""Is it seen what kills used panels: a leak to the frame, a back that insulates no longer?

A leak of R megohms, a meter of Rm and a panel of U volts: both readings together are U Rm / (Rm + R), divided as the
leak divides the string (Ohm's law). 40 megohms times the area is what IEC 61215 and 61730 want (from memory).
"""

import pytest

from service.core.pickup import Between, Seen, light_indoors
from service.core.pickup.frame import leak_mohm, least_mohm, most_reading_v
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


@pytest.mark.parametrize(
    ("area_m2", "together", "verdict"),
    [(1.9, 12.0, "as_expected"), (1.9, 13.5, "suspicious"), (1.0, 8.5, "suspicious"), (2.6, 13.5, "as_expected")],
)
def test_wetted_the_limit_hangs_on_the_panels_size(area_m2: float, together: float, verdict: str) -> None:
    """38.9 V and 10 megohms: 12.0, 13.5 and 8.5 V are 22.4, 18.8 and 35.8; wanted are 40 / area: 21.1, 40, 15.4."""
    frame = reading(plus_to_frame_v=together / 2, frame_to_minus_v=together / 2, wetted=True, meter_input_mohm=TEN)
    assert one(door(area_m2=Between.exactly(area_m2)), reading(voc=38.9, isc=7.0), frame).verdict == verdict


def test_twenty_eight_megohms_dry_pass_the_limit_and_are_still_not_cleared_before_water_was_tried() -> None:
    """5 + 5 V of 38 V through 10 megohms: 10 (38 / 10 - 1) = 28 megohms; 1.9 m2 want 40 / 1.9 = 21.05."""
    assert least_mohm(1.9) == pytest.approx(21.05, abs=0.005)
    big = door(area_m2=Between.exactly(1.9))
    dry = reading(plus_to_frame_v=5.0, frame_to_minus_v=5.0, meter_input_mohm=TEN)
    volts = reading(voc=38.0, isc=7.0)
    seen = one(big, volts, dry)
    assert (seen.verdict, codes(seen), seen.worth.share) == (Seen.CANNOT_TELL, ["frame_not_read_wetted"], None)
    assert seen.causes[0].facts["mohm"] == pytest.approx(28.0)
    assert seen.causes[0].facts["wanted"] == pytest.approx(21.1)
    wet = reading(plus_to_frame_v=5.5, frame_to_minus_v=5.5, wetted=True, meter_input_mohm=TEN)
    passed = one(big, volts, dry, wet)
    assert passed.verdict is Seen.AS_EXPECTED
    leaks = {quantity.what: quantity for quantity in passed.quantities if quantity.leak_mohm is not None}
    assert leaks["frame_dry"].leak_mohm == pytest.approx(28.0)
    assert leaks["frame_wetted"].leak_mohm == pytest.approx(24.5, abs=0.05)
    assert {quantity.least_mohm for quantity in leaks.values()} == {least_mohm(1.9)}
    worse = reading(plus_to_frame_v=9.0, frame_to_minus_v=9.0, wetted=True, meter_input_mohm=TEN)
    assert set(codes(one(big, volts, dry, worse))) == {"leaks_frame_wetted", "frame_not_read_wetted"}


def test_a_size_that_nobody_measured_clears_no_leak_and_accuses_of_none() -> None:
    """12 V of 38.9 V are 22.4 megohms; 1.2 m2 want 33.3, 1.6 m2 25 and 2.0 m2 20."""
    guessed = door(area_m2=Between(low=1.2, likely=1.6, high=2.0))
    frame = reading(plus_to_frame_v=6.0, frame_to_minus_v=6.0, wetted=True, meter_input_mohm=TEN)
    assert codes(one(guessed, reading(voc=38.9, isc=7.0), frame)) == ["panel_size_not_known"]


def test_a_meter_through_which_no_leak_shows_clears_nothing() -> None:
    """0.1 megohm: 25 megohms would show 0.16 V, less than hum; 0.02 megohm: 0.03 V, less than a meter tells."""
    for mohm, volts in ((0.1, 0.5), (0.02, 0.0)):
        frame = reading(
            plus_to_frame_v=volts, frame_to_minus_v=0.0, wetted=True, meter_input_mohm=Between.exactly(mohm)
        )
        assert codes(one(door(), reading(voc=38.9, isc=7.0), frame)) == ["meter_too_coarse"]


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


@pytest.mark.parametrize(("connector", "code"), [("older_unlocked", "old_connectors"), ("bare", "bare_leads")])
def test_connectors_without_a_lock_are_told(connector: str, code: str) -> None:
    assert codes(one(door(connector=connector), reading(voc=38.9, isc=7.0))) == [code]


@pytest.mark.parametrize(
    ("wet_v", "verdict"), [(0.0, Seen.CANNOT_TELL), (1.0, Seen.CANNOT_TELL), (5.5, Seen.AS_EXPECTED)]
)
def test_water_takes_no_leak_away_so_less_than_dry_is_no_contact(wet_v: float, verdict: Seen) -> None:
    volts = reading(voc=38.0, isc=7.0)
    dry = reading(plus_to_frame_v=2.0, frame_to_minus_v=2.5, meter_input_mohm=TEN)
    wet = reading(plus_to_frame_v=wet_v / 2, frame_to_minus_v=wet_v / 2, wetted=True, meter_input_mohm=TEN)
    for order in ((volts, dry, wet), (wet, volts, dry)):
        seen = one(door(area_m2=Between.exactly(1.9)), *order)
        assert seen.verdict is verdict
        assert ("frame_wet_below_dry" in codes(seen)) is (verdict is Seen.CANNOT_TELL)


def test_next_to_nothing_dry_and_wetted_is_sound() -> None:
    dry = reading(plus_to_frame_v=0.2, frame_to_minus_v=0.1, meter_input_mohm=TEN)
    wet = reading(plus_to_frame_v=0.0, frame_to_minus_v=0.1, wetted=True, meter_input_mohm=TEN)
    assert one(door(), reading(voc=38.9, isc=7.0), dry, wet).verdict is Seen.AS_EXPECTED
