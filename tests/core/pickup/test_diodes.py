"""Does the diode test of a dark panel tell shorted and open bypass diodes, whichever kind they are?

Volts of one diode at a milliampere: Schottky 0.15 to 0.40, p-n silicon 0.45 to 0.75 (from memory). In a row they
add up (Kirchhoff). A shorted diode takes its section's share of the open-circuit voltage.
"""

import pytest

from service.core.pickup import Between, Seen, light_indoors
from service.core.pickup.diodes import JUNCTION_V, SCHOTTKY_V
from tests.core.pickup.door import codes, door, one, reading

SOUND = {"voc": 38.9, "isc": 7.0}
KINDS = (SCHOTTKY_V, JUNCTION_V)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("sections", [1, 2, 3, 4])
@pytest.mark.parametrize("end", ["low", "likely", "high"])
def test_a_row_of_sound_diodes_passes_beside_sound_volts(kind: Between, sections: int, end: str) -> None:
    at = door(sections=Between.exactly(float(sections)))
    seen = one(at, reading(**SOUND, bypass_forward_v=sections * getattr(kind, end), bypass_swapped_over_range=True))
    assert seen.verdict is Seen.AS_EXPECTED
    assert seen.worth.share == 1.0


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("sections", "left"), [(2, 0), (2, 1), (3, 0), (3, 1), (3, 2), (4, 1), (4, 3)])
@pytest.mark.parametrize("end", ["low", "likely", "high"])
def test_shorted_diodes_are_never_passed_where_the_volts_in_sun_do_not_speak_for_them(
    kind: Between, sections: int, left: int, end: str
) -> None:
    at = door(light_indoors(), sections=Between.exactly(float(sections)))
    seen = one(at, reading(bypass_forward_v=left * getattr(kind, end)))
    [found] = [quantity for quantity in seen.quantities if quantity.what == "bypass_forward_v"]
    assert found.verdict is not Seen.AS_EXPECTED


@pytest.mark.parametrize(("volts", "shorted"), [(0.35, 1), (0.29, 2), (0.15, 2), (0.05, 3)])
def test_two_shorted_of_three_show_where_the_volts_in_sun_were_not_read(volts: float, shorted: int) -> None:
    """0.35 V: three in a row show 0.45 V or more, so two of them can be left at most."""
    seen = one(door(light_indoors()), reading(bypass_forward_v=volts))
    assert codes(seen) == ["bypass_shorted"]
    assert seen.causes[0].facts["shorted"] == shorted


@pytest.mark.parametrize(
    ("volts", "sun_v", "code"),
    [(0.01, 38.9, "bypass_against_volts"), (0.35, 38.9, "bypass_against_volts"), (0.01, 26.0, "bypass_against_volts"),
     (0.35, 26.0, "bypass_shorted"), (0.2, 13.0, "bypass_shorted"), (0.01, 0.2, "bypass_shorted")],
)  # fmt: skip
def test_diodes_that_the_volts_in_sun_prove_sound_are_no_shorted_ones(volts: float, sun_v: float, code: str) -> None:
    """Each of three shorted diodes takes a third of 39 V: all three leave none, two leave 13 V."""
    seen = one(door(), reading(voc=sun_v, isc=7.0, bypass_forward_v=volts))
    [found] = [quantity for quantity in seen.quantities if quantity.what == "bypass_forward_v"]
    assert [why.code for why in found.causes] == [code]
    against = code == "bypass_against_volts"
    assert found.verdict is (Seen.CANNOT_TELL if against else Seen.SUSPICIOUS)
    if against and sun_v > 38:
        assert (seen.verdict, seen.worth.share) == (Seen.CANNOT_TELL, None)


def test_volts_of_three_schottky_or_of_one_silicon_diode_ask_for_the_volts_in_sun() -> None:
    dark = reading(bypass_forward_v=0.6)
    assert "bypass_count_not_known" in codes(one(door(), reading(isc=7.0), dark))
    assert one(door(), reading(**SOUND), dark).verdict is Seen.AS_EXPECTED
    lost = one(door(), reading(voc=26.0, isc=7.0), dark)
    assert codes(lost)[0] == "bypass_section_lost"
    assert lost.verdict is Seen.SUSPICIOUS


@pytest.mark.parametrize(
    "test", [{"bypass_over_range": True}, {"bypass_forward_v": 2.3}, {"bypass_over_range": True,
             "bypass_swapped_over_range": True}]
)  # fmt: skip
def test_no_value_with_red_on_minus_is_an_open_diode(test: dict[str, object]) -> None:
    seen = one(door(), reading(**SOUND, **test))
    assert codes(seen) == ["bypass_open"]
    assert seen.worth.share == 0.5


def test_leads_that_were_mixed_up_accuse_nobody() -> None:
    mixed = reading(**SOUND, bypass_over_range=True, bypass_swapped_v=0.8)
    assert (one(door(), mixed).verdict, codes(one(door(), mixed))) == (Seen.CANNOT_TELL, ["bypass_leads_mixed_up"])
    apart = one(door(), reading(**SOUND, bypass_over_range=True), reading(bypass_swapped_v=0.8))
    assert codes(apart) == ["bypass_leads_mixed_up"]


def test_a_value_both_ways_is_read_again_in_the_dark() -> None:
    assert codes(one(door(), reading(**SOUND, bypass_forward_v=0.9, bypass_swapped_v=1.7))) == ["bypass_both_ways"]


def test_red_on_plus_alone_clears_no_diode() -> None:
    seen = one(door(), reading(**SOUND, bypass_swapped_over_range=True))
    assert codes(seen) == ["bypass_other_way_not_read"]
    assert seen.verdict is Seen.CANNOT_TELL


def test_thin_film_that_may_have_no_diode_is_not_accused_of_an_open_one() -> None:
    thin = door(sections=Between(low=0.0, likely=1.0, high=1.0))
    assert codes(one(thin, reading(**SOUND, bypass_over_range=True))) == ["bypass_perhaps_none"]
