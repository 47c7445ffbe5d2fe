"""Does a panel that stands apart from its lot show, and nobody else? Seven amperes are likely, of 6 to 8."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.pickup import Between
from service.core.pickup.lot import Estimate, Tolerance, against_lot

CURRENT = Tolerance(label_share=0.05, meter_share=0.02)
NEAR = Estimate(expected=Between(low=6.0, likely=7.0, high=8.0))
GUESS = Estimate(expected=Between(low=4.0, likely=7.0, high=10.0), guessed=True)
BLIND = Estimate(expected=Between(low=2.0, likely=7.0, high=12.0), guessed=True, blind=True)
READS = st.lists(st.floats(0.1, 12.0), min_size=2, max_size=9)


def stands(values: list[float], estimate: Estimate = NEAR) -> tuple[str, ...]:
    return against_lot(values, CURRENT, estimate).stands


def test_a_panel_alone_is_compared_with_nobody() -> None:
    assert stands([7.0]) == ("alone",)
    assert stands([]) == ()


@pytest.mark.parametrize("estimate", [NEAR, GUESS, BLIND])
@pytest.mark.parametrize(("second", "found"), [(6.9, "agrees"), (6.5, "agrees"), (6.05, "low")])
def test_of_two_the_lower_one_is_told_beyond_what_labels_differ(second: float, found: str, estimate: Estimate) -> None:
    assert stands([7.02, second], estimate) == ("agrees", found)


@pytest.mark.parametrize(
    ("pair", "estimate", "found"),
    [
        ((6.95, 9.0), NEAR, ("agrees", "high")),
        ((6.95, 7.9), NEAR, ("scattered", "scattered")),  # the estimate admits both
        ((6.95, 9.0), GUESS, ("scattered", "scattered")),  # more light, or another type: nobody can say
        ((6.95, 5.0), GUESS, ("agrees", "low")),
        ((3.0, 7.0), NEAR, ("low", "agrees")),
        ((9.0, 5.0), BLIND, ("agrees", "low")),
    ],
)
def test_of_two_the_estimate_says_which_where_it_can(
    pair: tuple[float, float], estimate: Estimate, found: tuple[str, str]
) -> None:
    assert stands(list(pair), estimate) == found
    assert stands(list(pair[::-1]), estimate) == found[::-1]


@pytest.mark.parametrize("estimate", [NEAR, GUESS, BLIND])
def test_of_many_the_one_far_below_the_median_is_told(estimate: Estimate) -> None:
    assert stands([7.0, 6.9, 7.1, 5.2, 7.0], estimate) == ("agrees", "agrees", "agrees", "low", "agrees")


@pytest.mark.parametrize("stranger", [7.95, 9.0, 13.0])
@pytest.mark.parametrize("estimate", [NEAR, GUESS, BLIND])
def test_a_stranger_that_gives_more_makes_no_sound_panel_low(stranger: float, estimate: Estimate) -> None:
    assert stands([6.9, 6.85, stranger, 6.95, 6.9], estimate) == ("agrees", "agrees", "high", "agrees", "agrees")


def test_two_of_three_that_agree_are_the_measure() -> None:
    assert stands([6.9, 6.85, 7.45]) == ("agrees", "agrees", "high")
    assert stands([6.9, 6.85, 5.9]) == ("agrees", "agrees", "low")
    assert stands([6.9, 6.85, 7.3]) == ("agrees", "agrees", "agrees")


def test_two_bad_ones_do_not_make_the_three_good_ones_bad() -> None:
    assert stands([7.0, 4.0, 7.1, 4.1, 7.05]) == ("agrees", "low", "agrees", "low", "agrees")


def test_most_that_are_bad_alike_do_not_make_the_good_ones_strange() -> None:
    lot = against_lot([4.0, 7.0, 4.1, 4.05, 7.1], CURRENT, NEAR)
    assert lot.stands == ("low", "agrees", "low", "low", "agrees")
    assert lot.middle == pytest.approx(7.05)


def test_a_better_one_nearer_to_a_rough_guess_stands_apart_and_leaves_most_open() -> None:
    """Four lack 30 % by the guess, one nothing: the same dirt on four, or another type beside dull light."""
    assert stands([5.0, 4.95, 7.1, 5.05, 5.0], GUESS) == ("outdone", "outdone", "high", "outdone", "outdone")
    assert stands([7.0, 6.95, 9.4, 7.05, 7.0], GUESS)[2] == "high"
    assert stands([6.2, 6.2, 7.1, 6.2], NEAR) == ("outdone", "outdone", "agrees", "outdone")


def test_where_most_give_too_much_only_a_label_says_that_the_others_are_sound() -> None:
    """Volts hang on the label; of amperes the light may have been misread, or there was more of it than a guess has."""
    lot, within = [9.0, 9.1, 7.0, 9.05], Between(low=6.0, likely=7.0, high=8.0)
    assert stands(lot, Estimate(expected=within, firm=True)) == ("high", "high", "agrees", "high")
    assert stands(lot, NEAR) == ("agrees", "agrees", "scattered", "agrees")
    assert stands(lot, Estimate(expected=within, guessed=True)) == ("agrees", "agrees", "low", "agrees")


def test_a_lot_in_halves_goes_by_the_estimate() -> None:
    assert stands([7.0, 7.1, 4.0, 4.1]) == ("agrees", "agrees", "low", "low")
    assert stands([7.0, 7.1, 9.5, 9.6]) == ("agrees", "agrees", "high", "high")
    assert set(stands([7.0, 7.1, 9.5, 9.6], GUESS)) == {"scattered"}


def test_one_near_the_measure_is_not_called_low_for_the_best_of_its_group() -> None:
    """6.85 is the middle of the first three; 6.6 lies 4 % below it, and 9 % below the best."""
    assert stands([7.25, 6.85, 6.75, 6.6, 4.0, 4.1, 4.2, 3.0]) == ("agrees",) * 4 + ("low",) * 4


def test_below_panels_of_which_nobody_can_say_one_is_low_by_the_lower_of_them() -> None:
    lot = against_lot([9.0, 6.95, 5.0], CURRENT, GUESS)
    assert (lot.stands, lot.middle) == (("scattered", "scattered", "low"), 6.95)


def test_volts_of_strangers_alone_are_no_measure() -> None:
    firm = Estimate(expected=Between(low=6.0, likely=7.0, high=8.0), firm=True)
    lot = against_lot([9.0, 4.5, 1.0], CURRENT, firm)
    assert (lot.stands, lot.middle) == (("high", "low", "low"), None)


@pytest.mark.parametrize("estimate", [NEAR, GUESS, BLIND])
def test_nought_on_most_is_no_measure(estimate: Estimate) -> None:
    assert stands([0.0, 0.0, 7.0], estimate) == ("low", "low", "agrees")


@given(READS, st.sampled_from([NEAR, GUESS, BLIND]), st.randoms(use_true_random=False))
def test_the_order_of_the_panels_does_not_matter(read: list[float], estimate: Estimate, chance: Random) -> None:
    shuffled = sorted(read, key=lambda _: chance.random())
    assert dict(zip(read, stands(read, estimate), strict=True)) == dict(
        zip(shuffled, stands(shuffled, estimate), strict=True)
    )


@given(st.floats(6.75, 7.2), st.integers(2, 8), st.integers(0, 8), st.floats(0.0, 12.0), st.sampled_from([NEAR, GUESS]))
def test_one_odd_panel_never_makes_a_lot_that_meets_the_estimate_low_or_high(
    about: float, count: int, at: int, odd: float, estimate: Estimate
) -> None:
    lot = [about * (1 + 0.01 * (one % 3)) for one in range(count)]
    place = min(at, count)
    lot.insert(place, odd)
    found = stands(lot, estimate)
    assert {one for number, one in enumerate(found) if number != place} == {"agrees"}
