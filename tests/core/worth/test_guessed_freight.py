"""Does a freight that is a guess make the bands wider, and a known one leave them as they are?"""

from math import hypot

import pytest

from service.core.model.band import Band
from service.core.worth import Worth, worth_of_energy
from tests.builders import money, outlay, tariff
from tests.core.worth.test_account import AS_OF

SAVED = Band(500.0, 640.0, 720.0)
PAYBACKS = ("simple_payback_years", "undiscounted_payback_years", "discounted_payback_years", "lasting_payback_years")


def account(year_kwh: Band = SAVED, **freight: float) -> Worth:
    paid = outlay({"freight": 80.0, **freight}, set=264)
    return worth_of_energy(year_kwh, 0.55, tariff(), paid, money(inverter_swap=None), AS_OF)


KNOWN, GUESSED = account(), account(freight_less=40.0, freight_more=80.0)


@pytest.mark.parametrize("figure", PAYBACKS)
def test_paybacks_hold_those_of_the_same_cost_told(figure: str) -> None:
    known, guessed = getattr(KNOWN, figure), getattr(GUESSED, figure)
    assert guessed.hopeful < known.hopeful < known.middle == guessed.middle < known.cautious < guessed.cautious


def test_what_it_is_worth_is_moved_by_both_steps_added_by_squares() -> None:
    known, guessed = KNOWN.net_present_value, GUESSED.net_present_value
    assert guessed.middle == known.middle
    assert guessed.middle - guessed.cautious == pytest.approx(hypot(known.middle - known.cautious, 80.0))
    assert guessed.hopeful - guessed.middle == pytest.approx(hypot(known.hopeful - known.middle, 40.0))


def test_a_range_of_nought_changes_no_digit() -> None:
    assert account(freight_less=0.0, freight_more=0.0) == KNOWN


def test_what_may_be_paid_and_what_is_paid_in_the_middle_are_as_before() -> None:
    assert GUESSED.outlay == KNOWN.outlay == 344.0
    assert GUESSED.worth_up_to == KNOWN.worth_up_to
    assert GUESSED.yearly_flows == KNOWN.yearly_flows


def test_the_cautious_payback_is_that_of_the_cautious_outlay() -> None:
    assert KNOWN.cautious_more == 0.0
    assert 0.0 < GUESSED.cautious_more < 80.0
    paid = (GUESSED.outlay or 0.0) + GUESSED.cautious_more
    assert GUESSED.simple_payback_years is not None
    assert GUESSED.simple_payback_years.cautious == pytest.approx(paid / GUESSED.cautious_gains[0])
