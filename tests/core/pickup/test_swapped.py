"""Are volts and amperes that were written down the wrong way round told, and no panel accused by them?"""

import pytest

from service.core.pickup import Between, Light, Seen, light_not_known, panels_seen, swapped_columns
from tests.core.pickup.door import codes, door, measured, one, reading, sky

WRONG_WAY = {"voc": 7.1, "isc": 38.8}


@pytest.mark.parametrize("light", [measured(720.0), sky(720.0), light_not_known()])
@pytest.mark.parametrize("read", [WRONG_WAY, {"voc": 7.1, "isc": 25.9}, {"voc": 5.2, "isc": 38.8}])
def test_exchanged_columns_accuse_no_panel(light: Light, read: dict[str, float]) -> None:
    seen = one(door(light), reading(**read))
    assert (seen.verdict, codes(seen), seen.worth.share) == (Seen.CANNOT_TELL, ["columns_swapped"], None)
    told = swapped_columns(door(light), [reading(**read)])
    assert told is not None
    assert told.facts["panels"] == "a"


def test_one_row_the_wrong_way_round_spoils_no_lot() -> None:
    lot = [reading("a", voc=38.9, isc=7.0), reading("b", **WRONG_WAY), reading("c", voc=38.8, isc=7.05)]
    first, wrong, last = panels_seen(door(sky(720.0)), lot)
    assert {first.verdict, last.verdict} == {Seen.AS_EXPECTED}
    assert codes(wrong) == ["columns_swapped"]
    assert wrong.lot == {"open_circuit_voltage_v": "alone", "short_circuit_current_a": "alone"}


def test_a_second_reading_the_right_way_round_decides() -> None:
    for both in ((WRONG_WAY, {"voc": 38.9, "isc": 7.0}), ({"voc": 38.9, "isc": 7.0}, WRONG_WAY)):
        seen = one(door(), *(reading(**read) for read in both))
        assert (seen.verdict, codes(seen)) == (Seen.AS_EXPECTED, [])


def test_what_else_was_seen_stands() -> None:
    seen = one(door(), reading(**WRONG_WAY, back_state="burnt"))
    assert (seen.verdict, seen.worth.because) == (Seen.SUSPICIOUS, "not_at_any_price")


@pytest.mark.parametrize(
    ("read", "code"),
    [
        ({"voc": 13.0, "isc": 7.0}, "bypass_section_lost"),
        ({"voc": 7.1, "isc": 7.0}, "voltage_low"),
        ({"voc": 38.9, "isc": 38.8}, "wrong_panel.current_high"),
        ({"voc": 7.1, "isc": 10.2}, "voltage_low"),
        ({"voc": 46.9, "isc": 7.0}, "wrong_panel.other_cells"),
        ({"voc": 13.0, "isc": 20.0}, "bypass_section_lost"),  # nearer exchanged, and far from sound either way
    ],
)
def test_what_fits_no_better_the_other_way_round_is_judged_as_told(read: dict[str, float], code: str) -> None:
    assert codes(one(door(), reading(**read)))[0] == code
    assert swapped_columns(door(), [reading(**read)]) is None


def test_a_current_that_some_sun_drives_may_be_read_as_told() -> None:
    small = {
        name: Between.exactly(value) for name, value in (("open_circuit_voltage_v", 11.0), ("cells_in_series", 18.0))
    }
    assert swapped_columns(door(measured(300.0), **small), [reading(voc=3.0, isc=10.0)]) is None
