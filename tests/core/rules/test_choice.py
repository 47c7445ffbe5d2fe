"""Which card speaks on a day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.errors import UnknownAreaError
from service.core.rules import STATUSES, card_for, in_force, is_stale
from service.data.local_rules import cards_of
from tests.core.rules.card_builder import card

DAY = date(2026, 7, 1)


def test_a_card_is_in_force_from_its_first_to_its_last_day() -> None:
    dated = card(valid_from=date(2026, 2, 1), valid_to=date(2026, 8, 31))
    days = {date(2026, 1, 31): False, date(2026, 2, 1): True, date(2026, 8, 31): True, date(2026, 9, 1): False}
    assert {day: in_force(dated, day) for day in days} == days


@pytest.mark.parametrize("status", [status for status in STATUSES if status != "in_force"])
def test_nothing_but_in_force_is_in_force_even_after_its_start_has_passed(status: str) -> None:
    assert not in_force(card(status=status, valid_from=date(2026, 1, 1)), DAY)


def test_the_card_in_force_speaks_before_a_proposal() -> None:
    proposal, rule = card(status="proposal"), card()
    assert card_for((proposal, rule), DAY) is rule


def test_the_dutch_cards_change_at_the_end_of_netting() -> None:
    cards = cards_of("NL")
    assert card_for(cards, date(2026, 12, 31)).export_payment == "netted"
    assert card_for(cards, date(2027, 1, 1)).export_payment == "depends"


def test_the_british_proposal_never_speaks_while_a_rule_is_in_force() -> None:
    assert card_for(cards_of("GB"), DAY).status == "in_force"


def test_no_card_at_all_is_no_answer() -> None:
    with pytest.raises(UnknownAreaError):
        card_for((), DAY)


def test_a_card_is_old_a_year_after_somebody_looked() -> None:
    looked = card(checked_on=date(2026, 6, 1))
    assert not is_stale(looked, date(2027, 6, 1))
    assert is_stale(looked, date(2027, 6, 2))


@given(st.permutations([0, 1, 2]), st.integers(0, 900))
def test_the_order_of_the_cards_does_not_matter(order: list[int], days: int) -> None:
    cards = (card(valid_to=date(2026, 12, 31)), card(status="adopted_not_yet_in_force", valid_from=date(2027, 1, 1)),
             card(status="proposal"))  # fmt: skip
    day = date(2026, 1, 1) + timedelta(days)
    assert card_for([cards[i] for i in order], day) == card_for(cards, day)
