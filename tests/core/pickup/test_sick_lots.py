"""Is a panel in a lot that is sick itself judged by what it should give, too? 7.1 A are likely."""

import pytest

from service.core.pickup import Between, PanelSeen, Seen, panels_seen
from tests.core.pickup.door import codes, door, measured, reading, sky

LIKELY_A = 7.12


def beside(light_w: float, *amperes: float) -> tuple[PanelSeen, ...]:
    lot = [reading(f"p{at}", voc=38.9, isc=one) for at, one in enumerate(amperes)]
    return panels_seen(door(measured(light_w)), lot)


@pytest.mark.parametrize("odd", [6.0, 4.0, 3.5, 2.9, 2.0, 1.0, 0.4])
def test_in_a_sick_lot_each_is_worth_what_it_gives_of_what_it_should(odd: float) -> None:
    for seen, read in zip(beside(720.0, 3.0, 3.05, 3.0, odd), (3.0, 3.05, 3.0, odd), strict=True):
        assert seen.verdict is Seen.SUSPICIOUS
        assert "current_low" in codes(seen)
        assert seen.worth.share == pytest.approx(read / LIKELY_A, abs=0.006)


def test_the_lower_one_of_a_sick_lot_is_told_by_both_measures() -> None:
    *mates, worst = beside(720.0, 3.0, 3.05, 3.0, 1.8)
    assert codes(worst) == ["lower_than_the_lot", "current_low"]
    assert [codes(seen) for seen in mates] == [["current_low"]] * 3


def test_the_best_of_a_sick_lot_is_no_stranger_but_sick_itself() -> None:
    best = beside(720.0, 3.0, 3.05, 3.0, 5.0)[-1]
    assert (best.verdict, codes(best)) == (Seen.SUSPICIOUS, ["current_low"])


def test_nothing_beside_a_lot_is_no_current_and_not_a_little() -> None:
    for light, volts in ((720.0, 38.9), (150.0, 36.5)):
        lot = [reading(f"p{at}", voc=volts, isc=one) for at, one in enumerate((1.5, 1.48, 1.5, 0.02))]
        dead = panels_seen(door(measured(light), cell_c=20.0 if light < 200 else 33.0), lot)[-1]
        assert (codes(dead)[0], dead.worth.share) == ("no_current", 0.0)


def test_beside_a_sound_lot_the_lot_measures() -> None:
    """All give 5 % more than likely at 720 W/m2: a third less than they is a third less."""
    low = beside(720.0, 7.48, 7.5, 7.46, 5.0)[-1]
    assert codes(low) == ["lower_than_the_lot"]
    assert (low.worth.share, low.worth.because) == (pytest.approx(5.0 / 7.48, abs=0.006), "power_left")


def test_beside_a_lot_of_which_nobody_knows_whether_it_is_sound_the_share_is_the_most() -> None:
    lot = [reading(f"p{at}", voc=38.9, isc=one) for at, one in enumerate((4.0, 4.05, 4.0, 3.0))]
    *mates, low = panels_seen(door(sky(720.0)), lot)
    assert {seen.worth.share for seen in mates} == {None}
    assert (low.worth.share, low.worth.because) == (0.75, "power_left_at_most")


def test_a_panel_of_another_type_measures_no_volts() -> None:
    """72 cells beside 60 of which some lost a section, and beside a dead one."""
    lot = [reading("lost", voc=26.0, isc=7.0), reading("dead", voc=0.0, isc=7.0), reading("other", voc=46.8, isc=7.0)]
    lost, _, other = panels_seen(door(), lot)
    [alone] = panels_seen(door(), lot[:1])
    assert lost.worth.share == alone.worth.share
    many = [reading(name, voc=46.8, isc=7.0) for name in "cde"]
    assert panels_seen(door(), [*lot[:1], *many])[0].worth.share == alone.worth.share
    assert (other.lot["open_circuit_voltage_v"], codes(other)) == ("high", ["wrong_panel.other_cells"])


def test_a_lost_section_beside_a_current_of_which_nobody_can_tell_is_not_worth_more_for_that() -> None:
    """Under a guess the current that joins another low one is open; the panel's third of volts stays lost."""
    lot = [("a", 38.9, 4.5), ("lost", 26.0, 3.4), ("c", 38.9, 3.4)]
    lost = panels_seen(door(sky(720.0)), [reading(name, voc=volts, isc=one) for name, volts, one in lot])[1]
    assert lost.verdict is Seen.SUSPICIOUS
    assert (lost.worth.share, lost.worth.because) == (None, "not_known_yet")


def by_volts(*volts: float, sections: int = 3) -> tuple[PanelSeen, ...]:
    """39.05 V are likely; of 54 cells 35.1 V."""
    at = door(sections=Between.exactly(float(sections)))
    return panels_seen(at, [reading(f"p{number}", voc=one, isc=7.0) for number, one in enumerate(volts)])


def test_a_lot_of_another_type_hides_no_lost_section_of_one_of_it() -> None:
    *mates, last = by_volts(35.1, 35.0, 35.2, 35.1, 23.4)
    assert [codes(seen) for seen in mates] == [["wrong_panel.other_cells"]] * 4
    assert codes(last) == ["bypass_section_lost", "wrong_panel.other_cells"]
    assert last.causes[0].facts == {"lost": 1, "sections": 3, "among": "mates"}
    assert (last.causes[1].facts["cells"], last.causes[1].facts["among"]) == (54, "mates")
    assert {seen.worth.share for seen in (*mates, last)} == {None}
    assert {seen.worth.because for seen in mates} == {"another_panel"}
    assert last.worth.because == "another_panel_with_a_fault"


def test_a_lot_that_is_low_itself_hides_no_lost_section_either_and_each_counts_by_what_it_should_give() -> None:
    *mates, last = by_volts(33.4, 33.4, 33.4, 33.4, 22.3)
    assert [codes(seen) for seen in mates] == [["voltage_low"]] * 4
    assert codes(last) == ["bypass_section_lost", "voltage_low"]
    assert last.worth.share == pytest.approx(22.3 / 39.05, abs=0.006)


def test_of_two_sections_half_of_what_the_others_give_is_one() -> None:
    assert codes(by_volts(33.4, 33.4, 33.4, 16.7, sections=2)[-1]) == ["bypass_section_lost", "voltage_low"]


def test_below_a_lot_that_lost_a_section_there_is_more_wrong() -> None:
    *mates, last = by_volts(26.0, 26.0, 26.1, 22.0)
    assert [codes(seen) for seen in mates] == [["bypass_section_lost"]] * 3
    assert codes(last) == ["lower_than_the_lot", "bypass_section_lost"]


@pytest.mark.parametrize("volts", [(36.6, 36.9, 36.6, 36.5), (36.9, 36.6, 36.8, 36.9), (33.9, 33.5, 33.9, 33.8)])
def test_panels_that_agree_are_told_to_be_the_same_thing(volts: tuple[float, ...]) -> None:
    """About 36.7 and 33.7 V part 54 cells from what is low alone."""
    assert len({tuple(codes(seen)) for seen in by_volts(*volts)}) == 1
