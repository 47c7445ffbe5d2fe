"""Is what is said of the panels of a lot true of all of them at once, where they are not all alike?"""

import pytest

from service.core.pickup import Between, Light, PanelSeen, Seen, expected_at, panels_seen
from tests.core.pickup.door import codes, door, measured, reading

CLEAR = Light(w_per_m2=Between(low=770.0, likely=980.0, high=1100.0), origin="sky")
THIN_CLOUD = Light(w_per_m2=Between(low=345.0, likely=705.0, high=1025.0), origin="sky")
OVERCAST = Light(w_per_m2=Between(low=54.0, likely=158.0, high=390.0), origin="sky")
SKIES = (CLEAR, THIN_CLOUD, OVERCAST)


def by_current(light: Light, *amperes: float) -> tuple[PanelSeen, ...]:
    """All with the volts that are likely."""
    sound = expected_at(door(light)).voltage
    assert sound is not None
    return panels_seen(
        door(light), [reading(f"p{at}", voc=sound.likely, isc=one) for at, one in enumerate(amperes)]
    )  # fmt: skip


def stands(seen: PanelSeen) -> str:
    return seen.lot["short_circuit_current_a"]


@pytest.mark.parametrize("light", SKIES)
@pytest.mark.parametrize("at", range(4))
def test_the_one_that_gives_half_as_much_again_as_three_alike_is_told_under_any_sky(light: Light, at: int) -> None:
    amperes = [4.0, 4.0, 4.0]
    amperes.insert(at, 6.0)
    found = by_current(light, *amperes)
    other = found[at]
    assert (stands(other), other.verdict, codes(other)) == ("high", Seen.CANNOT_TELL, ["higher_than_the_lot"])
    for seen in (*found[:at], *found[at + 1 :]):
        assert seen.verdict is Seen.CANNOT_TELL
        assert not {"whole_lot_low", "lot_scatters", "lower_than_the_lot"} & set(codes(seen))


@pytest.mark.parametrize("light", SKIES[:2])
def test_three_alike_below_a_better_one_that_comes_nearer_to_a_guess_may_lack_the_same(light: Light) -> None:
    for seen in by_current(light, 4.0, 4.0, 6.0, 4.0)[:2]:
        assert (codes(seen), stands(seen)) == (["most_outdone"], "outdone")


@pytest.mark.parametrize("light", SKIES)
@pytest.mark.parametrize("pair", [(6.0, 4.5), (4.5, 6.0)])
def test_two_that_differ_are_never_told_to_be_alike(light: Light, pair: tuple[float, float]) -> None:
    found = by_current(light, *pair)
    assert len({stands(seen) for seen in found} - {"scattered"}) != 1
    assert not any("whole_lot_low" in codes(seen) for seen in found)


def test_of_two_that_are_low_and_differ_the_better_one_is_the_measure_and_low_itself() -> None:
    better, worse = by_current(CLEAR, 6.0, 4.5)
    assert (better.verdict, codes(better)) == (Seen.CANNOT_TELL, ["measure_low"])
    assert (worse.verdict, codes(worse), worse.worth.share) == (Seen.SUSPICIOUS, ["lower_than_the_lot"], 0.75)


def test_two_that_are_low_and_alike_are_told_so() -> None:
    for seen in by_current(CLEAR, 6.0, 6.1):
        assert codes(seen) == ["whole_lot_low"]


def test_three_low_ones_of_four_in_measured_light_are_told_to_be_most() -> None:
    *low, sound = by_current(measured(620.0, 0.15), 4.0, 4.0, 4.0, 6.0)
    assert sound.verdict is Seen.AS_EXPECTED
    for seen in low:
        assert seen.verdict is Seen.SUSPICIOUS
        assert seen.causes[0].facts == {"quantity": "current", "among": "most"}
    one_low = by_current(measured(620.0, 0.15), 4.0, 6.0, 6.1, 6.0)[0]
    assert one_low.causes[0].facts == {"quantity": "current"}


def test_most_that_a_better_one_outdoes_within_what_was_measured_stay_open() -> None:
    """6.1 A is likely at 620 W/m2, 5.2 to 7.1 A are expected."""
    *most, better = by_current(measured(620.0, 0.15), 5.3, 5.3, 5.35, 6.2)
    assert better.verdict is Seen.AS_EXPECTED
    for seen in most:
        assert (seen.verdict, codes(seen)) == (Seen.CANNOT_TELL, ["most_outdone"])
