"""Does each panel get the verdict that its readings bear? In fair sun, 39.1 V and 7.1 A are likely here."""

import pytest

from service.core.pickup import (
    Between,
    Light,
    PanelReading,
    Seen,
    expected_at,
    light_indoors,
    light_not_known,
    panels_seen,
)
from tests.core.pickup.door import codes, door, measured, one, reading, sky

SOUND = {"voc": 38.9, "isc": 7.0}
DARK = Light(w_per_m2=Between.exactly(0.0), origin="sky")


def test_a_sound_panel_reads_as_expected_and_is_worth_its_price() -> None:
    seen = one(door(), reading(**SOUND))
    assert seen.verdict is Seen.AS_EXPECTED
    assert seen.causes == ()
    assert seen.worth.share == 1.0


@pytest.mark.parametrize(("voc", "lost"), [(26.0, 1), (13.0, 2)])
def test_a_third_of_the_voltage_for_each_lost_section(voc: float, lost: int) -> None:
    seen = one(door(), reading(voc=voc, isc=7.0))
    assert seen.verdict is Seen.SUSPICIOUS
    assert codes(seen) == ["bypass_section_lost"]
    assert seen.causes[0].facts["lost"] == lost
    assert seen.worth.share == pytest.approx((3 - lost) / 3, abs=0.01)


@pytest.mark.parametrize("voc", [37.2, 38.9, 26.0])
def test_volts_alone_are_worth_a_tenth_less_than_with_a_sound_current(voc: float) -> None:
    alone, both = one(door(), reading(voc=voc)), one(door(), reading(voc=voc, isc=7.0))
    assert alone.worth.share == pytest.approx(0.9 * both.worth.share, abs=0.006)


def test_what_a_low_current_alone_leaves_is_the_most_for_it_hides_a_lost_section() -> None:
    alone, both = one(door(), reading(isc=4.0)), one(door(), reading(voc=38.9, isc=4.0))
    assert alone.worth.share == both.worth.share
    assert (alone.worth.because, both.worth.because) == ("power_left_at_most", "power_left")


def test_a_panel_of_two_sections_loses_half() -> None:
    seen = one(door(cells_in_series=Between.exactly(40.0), sections=Between.exactly(2.0)), reading(voc=19.6))
    assert codes(seen) == ["bypass_section_lost"]
    assert seen.causes[0].facts == {"lost": 1, "sections": 2}


def test_a_quarter_of_the_current_missing_in_measured_light_is_suspicious() -> None:
    seen = one(door(measured(820.0)), reading(voc=39.3, isc=6.05))
    assert codes(seen) == ["current_low"]
    assert seen.worth.share == pytest.approx(0.745, abs=0.02)


def test_broken_cells_do_not_hide_behind_a_sound_voltage() -> None:
    assert one(door(), reading(voc=38.9, isc=4.0)).verdict is Seen.SUSPICIOUS


def test_no_volts_in_sun_are_no_low_light() -> None:
    seen = one(door(), reading(voc=0.3, isc=0.0))
    assert seen.verdict is Seen.SUSPICIOUS
    assert set(codes(seen)) == {"no_reading", "no_current"}
    assert seen.worth.share == 0.0


def test_more_volts_than_the_label_allows_are_another_panel() -> None:
    seen = one(door(), reading(voc=46.9, isc=7.0))
    assert codes(seen) == ["wrong_panel.other_cells"]
    assert seen.causes[0].facts["cells"] == 72
    assert seen.worth.share is None


@pytest.mark.parametrize("light", [light_indoors(), DARK, measured(0.0)])
@pytest.mark.parametrize("read", [SOUND, {"voc": 0.2, "isc": 0.0}, {"voc": 60.0, "isc": 15.0}])
def test_indoors_and_in_the_dark_nobody_can_tell_whatever_the_meter_shows(light: Light, read: dict[str, float]) -> None:
    readings = [reading("a", **read), reading("b", **SOUND), reading("c", **SOUND)]
    for seen in panels_seen(door(light), readings):
        assert seen.verdict is Seen.CANNOT_TELL
        assert seen.worth.share is None
    assert expected_at(door(light)).voltage is None


@pytest.mark.parametrize("light", [measured(60.0, 0.35), sky(120.0), light_not_known()])
def test_in_light_that_is_too_low_or_not_known_no_panel_is_as_expected(light: Light) -> None:
    likely = expected_at(door(light))
    assert likely.voltage is not None
    assert likely.current is not None
    seen = one(door(light), reading(voc=likely.voltage.likely, isc=likely.current.likely))
    assert seen.verdict is Seen.CANNOT_TELL


def test_a_shadow_is_no_defect() -> None:
    seen = one(door(), reading(voc=38.8, isc=3.4, shaded=True))
    assert seen.verdict is Seen.CANNOT_TELL
    assert codes(seen) == ["shaded"]
    assert one(door(), reading(voc=26.0, shaded=True)).verdict is Seen.CANNOT_TELL


def test_volts_alone_are_as_expected_and_a_tenth_cheaper() -> None:
    seen = one(door(), reading(voc=38.9))
    assert seen.verdict is Seen.AS_EXPECTED
    assert seen.worth.share == 0.9


def test_amperes_alone_hide_a_lost_section() -> None:
    seen = one(door(), reading(isc=7.0))
    assert seen.verdict is Seen.CANNOT_TELL
    assert codes(seen) == ["voltage_not_read"]


def test_a_panel_on_which_nothing_was_read_cannot_be_told() -> None:
    assert codes(one(door(), reading())) == ["nothing_read"]


@pytest.mark.parametrize(("unread", "read"), [("voltage_known", {"voc": 38.9}), ("current_known", SOUND)])
def test_a_rating_that_nobody_read_is_never_as_expected(unread: str, read: dict[str, float]) -> None:
    seen = one(door(**{unread: False}), reading(**read))
    assert seen.verdict is Seen.CANNOT_TELL
    assert "rating_not_known" in codes(seen)


def test_a_low_lot_under_a_guessed_sky_says_that_there_was_less_light() -> None:
    lot = [reading(name, voc=38.5, isc=4.0) for name in "abc"]
    for seen in panels_seen(door(sky(720.0)), lot):
        assert seen.verdict is Seen.CANNOT_TELL
        assert codes(seen) == ["whole_lot_low"]


def test_a_lot_is_not_excused_by_light_that_was_measured_well() -> None:
    lot = [reading(name, voc=38.5, isc=4.0) for name in "abc"]
    assert {seen.verdict for seen in panels_seen(door(measured(720.0)), lot)} == {Seen.SUSPICIOUS}


@pytest.mark.parametrize("light", [measured(720.0, 0.3), sky(720.0), sky(900.0), light_not_known()])
def test_the_panel_that_stands_apart_is_told_whatever_the_sky(light: Light) -> None:
    first, second = panels_seen(door(light), [reading("1", voc=38.9, isc=7.02), reading("2", voc=38.8, isc=6.05)])
    assert codes(second)[0] == "lower_than_the_lot"
    assert second.verdict is Seen.SUSPICIOUS
    assert first.verdict is not Seen.SUSPICIOUS
    assert second.worth.share == pytest.approx(6.05 / 7.02, abs=0.01)


def test_panels_of_a_lot_that_agree_are_judged_alike_under_a_guessed_sky() -> None:
    most = expected_at(door(sky(720.0))).current
    assert most is not None
    about = 0.7 * most.high
    for middle, verdict in ((1.01, Seen.AS_EXPECTED), (0.99, Seen.CANNOT_TELL)):
        lot = [
            reading(name, voc=38.8, isc=about * middle * share)
            for name, share in zip("abc", (0.98, 1.0, 1.02), strict=True)
        ]
        assert {seen.verdict for seen in panels_seen(door(sky(720.0)), lot)} == {verdict}


def test_a_panel_not_turned_to_the_sun_is_read_again() -> None:
    seen = one(door(sky(720.0, askew=300.0)), reading(voc=38.5, isc=4.0))
    assert codes(seen) == ["turned_to_the_sun"]


def test_several_readings_of_one_panel_are_one_panel() -> None:
    seen = one(door(), reading(voc=38.9), reading(isc=7.0), reading(back_state="sound"))
    assert seen.verdict is Seen.AS_EXPECTED
    assert {quantity.what for quantity in seen.quantities} == {
        "open_circuit_voltage_v", "short_circuit_current_a", "back_state",
    }  # fmt: skip


def test_a_panel_in_shade_is_no_witness_for_its_neighbour() -> None:
    lit, _ = panels_seen(door(sky(720.0)), [reading("a", voc=38.5, isc=4.0), reading("b", isc=4.0, shaded=True)])
    assert codes(lit) == ["current_low"]
    assert lit.lot["short_circuit_current_a"] == "alone"


def test_connectors_that_can_be_mended_do_not_make_a_panel_suspicious_that_nobody_has_measured() -> None:
    old = {"connector": "older_unlocked"}
    indoors = one(door(light_indoors(), **old), reading(voc=19.0, isc=0.01))
    assert (indoors.verdict, codes(indoors), indoors.worth.share) == (
        Seen.CANNOT_TELL, ["old_connectors", "light_indoors"], None,
    )  # fmt: skip
    unread = one(door(**old), reading(isc=7.0))
    assert (unread.verdict, codes(unread)) == (Seen.CANNOT_TELL, ["old_connectors", "voltage_not_read"])
    assert one(door(**old), reading(**SOUND)).verdict is Seen.SUSPICIOUS


def test_what_is_to_be_mended_is_taken_off_once_however_often_it_was_read() -> None:
    old = door(connector="older_unlocked")
    assert one(old, reading(voc=38.9), reading(isc=7.0)).worth.share == 0.9
    assert one(old, reading(voc=38.9)).worth.share == 0.81


def test_nobody_bids_for_an_open_diode_before_the_volts_were_read() -> None:
    seen = one(door(light_indoors()), reading(bypass_over_range=True))
    assert (seen.verdict, seen.worth.share, seen.worth.because) == (Seen.SUSPICIOUS, None, "not_known_yet")


def test_what_cannot_be_mended_is_told_before_what_can() -> None:
    seen = one(door(connector="older_unlocked"), reading(**SOUND, glass_state="cracked"))
    assert codes(seen) == ["glass_cracked", "old_connectors"]


@pytest.mark.parametrize(("voc", "lost"), [(23.5, 1), (12.0, 2)])
def test_the_lot_tells_a_lost_section_where_nobody_told_the_light(voc: float, lost: int) -> None:
    lot = [reading(name, voc=volts) for name, volts in zip("abcd", (35.4, 35.5, voc, 35.2), strict=True)]
    seen = panels_seen(door(light_not_known()), lot)[2]
    assert codes(seen) == ["bypass_section_lost"]
    assert seen.causes[0].facts == {"lost": lost, "sections": 3}
    assert seen.worth.share == pytest.approx(0.9 * voc / 35.4, abs=0.006)  # no current was read


def test_a_voltage_below_the_lots_that_is_no_section_is_told_as_low() -> None:
    lot = [reading(name, voc=volts) for name, volts in zip("abcd", (35.4, 35.5, 31.0, 35.2), strict=True)]
    assert codes(panels_seen(door(light_not_known()), lot)[2]) == ["lower_than_the_lot"]


@pytest.mark.parametrize("currents", [(7.1, 3.4, 3.3), (7.1, 7.0, 3.3, 3.4)])
def test_panels_alike_and_low_beside_one_that_is_sound_in_one_light_are_suspicious(currents: tuple[float, ...]) -> None:
    readings = [reading(f"p{at}", voc=38.9, isc=amperes) for at, amperes in enumerate(currents)]
    for seen, amperes in zip(panels_seen(door(sky(720.0)), readings), currents, strict=True):
        assert seen.verdict is (Seen.AS_EXPECTED if amperes > 6 else Seen.SUSPICIOUS)
        assert codes(seen) == ([] if amperes > 6 else ["lower_than_the_lot"])
        assert seen.worth.share < 0.6 or amperes > 6


def test_a_lot_that_is_low_as_a_whole_under_a_guessed_light_stays_open() -> None:
    found = panels_seen(door(sky(720.0)), [reading(f"p{at}", voc=38.9, isc=3.3) for at in range(3)])
    assert {seen.verdict for seen in found} == {Seen.CANNOT_TELL}


def test_a_shorted_diode_and_the_volts_that_it_takes_are_one_fault() -> None:
    sun, dark = reading(voc=26.0, isc=7.0), reading(bypass_forward_v=0.3, bypass_swapped_over_range=True)
    both = one(door(), sun, dark)
    assert set(codes(both)) == {"bypass_section_lost", "bypass_shorted"}
    assert both.worth.share == one(door(), sun).worth.share == pytest.approx(0.67, abs=0.01)


def test_where_nobody_told_the_light_the_current_itself_shows_enough_to_judge_the_volts_by() -> None:
    lost = one(door(light_not_known()), reading(voc=25.5, isc=5.0))
    assert lost.verdict is Seen.SUSPICIOUS
    assert codes(lost)[0] == "bypass_section_lost"
    volts = next(q for q in one(door(light_not_known()), reading(voc=38.5, isc=5.0)).quantities if q.unit == "V")
    assert volts.verdict is Seen.AS_EXPECTED
    for current in (None, 0.4):  # a lamp may do that
        assert one(door(light_not_known()), reading(voc=25.5, isc=current)).verdict is Seen.CANNOT_TELL


def test_under_a_dull_sky_the_odd_one_of_a_lot_is_told_by_the_others() -> None:
    amperes = (1.4, 1.47, 1.43, 1.42, 1.45, 1.43, 1.47, 0.77)
    lot = [reading(f"p{at}", voc=36.5, isc=one) for at, one in enumerate(amperes)]
    assert "lower_than_the_lot" in codes(panels_seen(door(sky(150.0)), lot)[-1])
    assert "lower_than_the_lot" not in codes(panels_seen(door(light_not_known()), lot)[-1])  # lamps may differ


def a_lot(*read: tuple[float, float]) -> list[PanelReading]:
    return [reading(f"p{at}", voc=volts, isc=amperes) for at, (volts, amperes) in enumerate(read)]


FOUR = ((38.9, 7.0), (38.8, 6.95), (39.0, 7.05), (38.9, 7.0))


@pytest.mark.parametrize("light", [measured(720.0), measured(720.0, 0.15), sky(720.0)])
@pytest.mark.parametrize(
    ("stranger", "code"),
    [((38.9, 9.6), "wrong_panel.current_high"), ((46.9, 7.0), "wrong_panel.other_cells"),
     ((42.6, 7.0), "wrong_panel.other_cells")],
)  # fmt: skip
def test_a_stranger_in_a_lot_is_told_and_no_sound_panel_beside_it(
    light: Light, stranger: tuple[float, float], code: str
) -> None:
    *sound, other = panels_seen(door(light), a_lot(*FOUR, stranger))
    assert [(seen.verdict, seen.worth.share) for seen in sound] == [(Seen.AS_EXPECTED, 1.0)] * 4
    assert codes(other) == [code]
    assert (other.verdict, other.worth.share) == (Seen.SUSPICIOUS, None)


def test_the_only_panel_of_the_label_among_strangers_is_sound() -> None:
    *strangers, sound = panels_seen(door(), a_lot((46.9, 7.0), (46.8, 7.0), (47.0, 7.0), (38.9, 7.0)))
    assert (sound.verdict, sound.worth.share) == (Seen.AS_EXPECTED, 1.0)
    assert [codes(seen) for seen in strangers] == [["wrong_panel.other_cells"]] * 3


def test_one_that_gives_more_than_the_others_and_no_more_than_its_label_stays_open() -> None:
    *sound, other = panels_seen(door(measured(720.0, 0.15)), a_lot(*FOUR, (38.9, 8.0)))
    assert {seen.verdict for seen in sound} == {Seen.AS_EXPECTED}
    assert (other.verdict, codes(other), other.worth.share) == (Seen.CANNOT_TELL, ["higher_than_the_lot"], None)


@pytest.mark.parametrize("light", [measured(720.0), sky(720.0), light_not_known()])
@pytest.mark.parametrize("lost", [2, 3, 4])
def test_no_middle_hides_the_section_that_most_of_a_lot_has_lost(light: Light, lost: int) -> None:
    """Of five; all that lost none read 39 V, the others two thirds of it."""
    lot = a_lot(*[(26.0, 7.0)] * lost, *[(38.9, 7.0)] * (5 - lost))
    found = panels_seen(door(light), lot)
    assert ["bypass_section_lost" in codes(seen) for seen in found] == [True] * lost + [False] * (5 - lost)
    assert {seen.verdict for seen in found[lost:]} == {Seen.CANNOT_TELL if light.origin == "not_known" else
                                                       Seen.AS_EXPECTED}  # fmt: skip


def test_a_lot_that_has_lost_the_same_section_throughout_is_seen_by_the_label() -> None:
    for seen in panels_seen(door(), a_lot(*[(26.0, 7.0)] * 4)):
        assert codes(seen) == ["bypass_section_lost"]
        assert seen.lot["open_circuit_voltage_v"] == "agrees"


@pytest.mark.parametrize(
    ("share", "likely"), [(0.5, Seen.CANNOT_TELL), (1.0, Seen.CANNOT_TELL), (0.2, Seen.AS_EXPECTED)]
)
def test_a_current_proves_nothing_in_light_that_could_be_far_more(share: float, likely: Seen) -> None:
    wide = Light(w_per_m2=Between(low=720.0 * (1 - share), likely=720.0, high=720.0 * (1 + share)), origin="sky")
    assert one(door(wide), reading(voc=38.9, isc=7.1)).verdict is likely
    half = one(door(wide), reading(voc=38.9, isc=3.6))
    assert half.verdict is not Seen.AS_EXPECTED
    if share >= 0.5:
        assert (codes(half), half.worth.share) == (["light_too_unsure"], None)


def test_in_light_that_was_measured_dull_a_lot_is_compared_all_the_same() -> None:
    """At 150 W/m2 a sound one gives 1.48 A; the last one lacks 30 % beside its neighbours."""
    dull = door(measured(150.0, 0.4), cell_c=20.0)
    *sound, low = panels_seen(dull, a_lot((36.5, 1.5), (36.5, 1.48), (36.6, 1.52), (36.5, 1.05)))
    assert (low.verdict, codes(low)) == (Seen.SUSPICIOUS, ["lower_than_the_lot"])
    assert low.worth.share == pytest.approx(0.7, abs=0.01)
    for seen in sound:
        assert (seen.verdict, codes(seen)) == (Seen.CANNOT_TELL, ["light_too_low"])
        assert seen.lot["short_circuit_current_a"] == "agrees"


@pytest.mark.parametrize("volts", [33.8, 36.9])
def test_in_dull_light_that_takes_volts_of_worn_cells_no_panel_is_accused_by_its_neighbours_volts(volts: float) -> None:
    dull = door(measured(150.0, 0.4), cell_c=20.0)
    weak = panels_seen(dull, a_lot((39.0, 1.5), (39.1, 1.48), (38.9, 1.5), (volts, 1.52)))[-1]
    assert (weak.verdict, codes(weak), weak.lot["open_circuit_voltage_v"]) == (
        Seen.CANNOT_TELL, ["light_too_low"], "low",
    )  # fmt: skip


@pytest.mark.parametrize("w_per_m2", [0.4, 20.0, 45.0])
@pytest.mark.parametrize("origin", ["sky", "measured"])
def test_in_the_dusk_no_panel_is_accused_by_its_neighbours_volts(origin: str, w_per_m2: float) -> None:
    dusk = Light(w_per_m2=Between(low=0.7 * w_per_m2, likely=w_per_m2, high=1.2 * w_per_m2), origin=origin)
    for seen in panels_seen(door(dusk), a_lot((34.0, 0.3), (22.0, 0.3))):
        assert (seen.verdict, seen.worth.share) == (Seen.CANNOT_TELL, None)
        assert {"light_too_low", "more_than_told_light"} >= set(codes(seen)) >= {"light_too_low"}


def test_from_fifty_watts_on_a_lost_section_shows_beside_the_neighbours() -> None:
    lost = panels_seen(door(measured(60.0)), a_lot((35.0, 0.6), (35.1, 0.6), (23.4, 0.6)))[-1]
    assert (lost.verdict, codes(lost)[:1]) == (Seen.SUSPICIOUS, ["bypass_section_lost"])


@pytest.mark.parametrize("light", [measured(40.0), light_indoors()])
def test_a_lot_that_cannot_be_compared_is_not_called_alone(light: Light) -> None:
    for seen in panels_seen(door(light), a_lot((33.0, 0.3), (33.0, 0.2))):
        assert seen.lot["short_circuit_current_a"] == "not_compared"
        assert seen.verdict is Seen.CANNOT_TELL


@pytest.mark.parametrize("read", [{"voc": 26.0, "isc": 7.0}, {"voc": 39.0, "isc": 4.0}, {"voc": 26.0, "isc": 4.0}])
def test_measuring_again_makes_no_fault_worse(read: dict[str, float]) -> None:
    once = one(door(), reading(**read)).worth
    for rounds in (2, 3, 5):
        assert one(door(), *(reading(**read) for _ in range(rounds))).worth == once
    near = {name: value * 1.005 for name, value in read.items()}
    assert one(door(), reading(**read), reading(**near)).worth == once


def test_a_fault_that_comes_and_goes_counts_by_its_worst_reading() -> None:
    sound, lost = reading(voc=39.0, isc=7.0), reading(voc=26.0, isc=7.0)
    for both in ((sound, lost), (lost, sound)):
        seen = one(door(), *both)
        assert codes(seen) == ["bypass_section_lost", "rounds_disagree"]
        assert seen.worth == one(door(), lost).worth


@pytest.mark.parametrize("w_per_m2", [60.0, 120.0, 190.0])
def test_in_dull_light_only_a_lost_section_is_seen_in_low_volts(w_per_m2: float) -> None:
    dull = door(measured(w_per_m2))
    low = expected_at(dull).voltage.low
    seen = one(dull, reading(voc=0.96 * low))
    assert (seen.verdict, codes(seen)[:1]) == (Seen.CANNOT_TELL, ["light_too_low"])
    assert seen.worth.share is None
    lost = one(dull, reading(voc=expected_at(dull).voltage.likely * 2 / 3))
    assert (lost.verdict, codes(lost)) == (Seen.SUSPICIOUS, ["bypass_section_lost"])


def test_what_is_read_again_without_the_shadow_counts_alone() -> None:
    under, clear = reading(voc=31.0, isc=2.0, shaded=True), reading(voc=38.9, isc=7.0)
    assert one(door(), under).verdict is Seen.CANNOT_TELL
    for both in ((under, clear), (clear, under)):
        assert one(door(), *both).verdict is Seen.AS_EXPECTED
    assert one(door(), under, reading(voc=38.9)).verdict is Seen.CANNOT_TELL  # the current was not read again


@pytest.mark.parametrize(
    ("nought", "read"),
    [
        ({"voc": 0.0}, {"voc": 38.9, "isc": 7.0}),
        ({"isc": 0.0}, {"voc": 38.9, "isc": 7.0}),
        ({"voc": 0.02, "isc": 0.0}, {"voc": 38.9, "isc": 7.0}),
    ],
)
def test_nought_in_one_round_and_a_sound_reading_in_another_is_a_contact_and_no_dead_panel(
    nought: dict[str, float], read: dict[str, float]
) -> None:
    silent, sound = reading(**nought), reading(**read)
    for both in ((silent, sound), (sound, silent)):
        seen = one(door(), *both)
        assert seen.verdict is Seen.SUSPICIOUS
        assert set(codes(seen)) == {"no_contact"}
        assert (seen.worth.share, seen.worth.because) == (0.5, "contact_not_sure")
    third, again = (one(door(), silent, sound, more).worth.share for more in (sound, silent))
    assert again < 0.5 < third < 1.0
    assert one(door(), silent, silent).worth.share in (0.0, None)


def test_nought_in_all_rounds_stays_nought() -> None:
    for rounds in (1, 2, 3):
        seen = one(door(), *(reading(voc=0.1, isc=0.0) for _ in range(rounds)))
        assert (seen.verdict, seen.worth.share, seen.worth.because) == (Seen.SUSPICIOUS, 0.0, "gives_nothing")


def test_a_lost_contact_hides_no_lost_section() -> None:
    seen = one(door(), reading(voc=0.0), reading(voc=26.0, isc=7.0))
    assert set(codes(seen)) == {"bypass_section_lost", "no_contact"}
    assert seen.worth.share == pytest.approx(0.5 * 2 / 3, abs=0.01)


def test_a_lost_contact_is_no_measure_for_the_lot() -> None:
    lot = [reading("a", voc=0.0), reading("a", voc=38.9, isc=7.0), *(reading(name, voc=38.9, isc=7.0) for name in "bc")]
    first, *others = panels_seen(door(sky(720.0)), lot)
    assert codes(first) == ["no_contact"]
    assert {seen.verdict for seen in others} == {Seen.AS_EXPECTED}
    assert first.lot["open_circuit_voltage_v"] == "agrees"


def test_what_cannot_be_bought_at_any_price_is_not_for_a_contact_either() -> None:
    seen = one(door(), reading(voc=0.0), reading(voc=38.9, isc=7.0, back_state="burnt"))
    assert (seen.worth.share, seen.worth.because) == (0.0, "not_at_any_price")


def test_no_current_on_any_panel_of_a_lot_that_gives_volts_is_the_meters_fuse() -> None:
    lot = [reading(name, voc=38.9, isc=0.0) for name in "abc"]
    for seen in panels_seen(door(), lot):
        assert (seen.verdict, seen.worth.share) == (Seen.CANNOT_TELL, None)
        assert codes(seen) == ["no_current_on_any"]
    _, dead = panels_seen(door(), [reading("a", voc=38.9, isc=7.0), lot[1]])
    assert dead.verdict is Seen.SUSPICIOUS
    assert dead.worth.share == 0.0
    alone = one(door(), lot[0])  # a single one proves nothing of the meter, and sound volts nothing of a broken circuit
    assert (codes(alone), alone.worth.share, alone.worth.because) == (["no_current"], None, "meter_first")
    for seen in panels_seen(door(), [reading(name, voc=0.1, isc=0.0) for name in "abc"]):
        assert seen.worth.share == 0.0
    for names in ("a", "ab", "abc"):  # amperes alone: the fuse is no less likely where less was read
        for seen in panels_seen(door(), [reading(name, isc=0.0) for name in names]):
            assert (codes(seen), seen.worth.share, seen.worth.because) == (["no_current"], None, "meter_first")
    dead, _ = panels_seen(door(), [reading("a", isc=0.0), reading("b", isc=7.0)])
    assert (dead.worth.share, dead.worth.because) == (0.0, "gives_nothing")


def test_a_round_that_reads_as_the_lot_does_is_not_called_lower_than_the_lot() -> None:
    both = [reading("a", voc=25.9, isc=7.0), reading("a", voc=38.9, isc=3.0)]
    first = panels_seen(door(), [*both, *(reading(name, voc=38.9, isc=7.0) for name in "bcd")])[0]
    said = {(one.what, one.measured): [why.code for why in one.causes] for one in first.quantities}
    assert said["open_circuit_voltage_v", 38.9] == []
    assert said["open_circuit_voltage_v", 25.9] == ["bypass_section_lost"]
    assert said["short_circuit_current_a", 7.0] == []
    assert said["short_circuit_current_a", 3.0] == ["lower_than_the_lot"]
    assert first.worth.share == pytest.approx(25.9 / 38.9 * 3 / 7, abs=0.02)


def test_no_volts_while_current_flows_are_no_broken_circuit() -> None:
    seen = one(door(), reading(voc=0.1, isc=7.0))
    assert codes(seen) == ["no_voltage_yet_current"]
    assert (seen.worth.share, seen.worth.because) == (None, "meter_first")
    assert "no_reading" in codes(one(door(), reading(voc=0.1, isc=0.5)))
