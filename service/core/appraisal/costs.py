"""What does each condition cost: once, and in every year?"""

from collections.abc import Callable, Iterable
from dataclasses import replace

from service.core.appraisal.conditions import Condition
from service.core.appraisal.remedies import touches_energy, with_remedy
from service.core.energy import EnergyYear
from service.core.model.assumption import Assumptions
from service.core.model.band import Band
from service.core.model.facts import Setup
from service.core.model.finding import Finding, Remedy
from service.core.worth import Worth

Account = Callable[[Setup, Assumptions], tuple[EnergyYear, Worth | None]]

_NOTHING = Band(0.0, 0.0, 0.0)
# A setting, a question, a plug moved to a free input, a letter: nobody sends a bill for these. All else is work or
# things whose price no open, dated table was found for; it is not guessed.
_FREE = frozenset(
    {
        "lower_set_limit", "one_panel_per_input", "ask_seller", "ask_operator", "get_consent", "pay_at_most",
        "stay_longer", "accept_the_risk", "tell_price", "tell_direction", "tell_mount",
        "tell_facade", "tell_coldest_air",
    }
)  # fmt: skip


def costed(condition: Condition, per_year: Band | None = _NOTHING) -> Condition:
    """The condition with its cost.

    Args:
        condition: without one.
        per_year: what the year's saving loses by it, from ``lost_per_year``; None where no price per kWh is known.
    """
    free = condition.code in _FREE
    less = free and per_year is not None and any(part != 0.0 for part in (per_year.cautious, per_year.hopeful))
    because = "price_not_known" if not free or per_year is None else "less_energy" if less else "costs_nothing"
    return replace(condition, cost=_NOTHING if free else None, cost_per_year=per_year, cost_because=because)


def lost_per_year(
    remedies: Iterable[tuple[Finding, Remedy]],
    start: tuple[Setup, Assumptions],
    asked: Worth | None,
    together: Worth | None,
    account: Account,
) -> tuple[Band | None, ...]:
    """What each remedy takes from the first year's saving after those before it; together they take all that is lost.

    Args:
        remedies: those in place, in their order.
        start: the set without them, and what of it was assumed.
        asked: its account.
        together: the account with all of them in place.
        account: asks for the account of a set with some of them in place; not where one alone changes the energy.
    """
    chosen = [remedy for _, remedy in remedies]
    moving = [remedy for remedy in chosen if touches_energy(remedy)]
    lost: list[Band | None] = []
    before, changed = asked, start
    for remedy in chosen:
        if not touches_energy(remedy):
            lost.append(_NOTHING)
            continue
        changed = with_remedy(*changed, remedy) or changed
        after = together if remedy is moving[-1] else account(*changed)[1]
        lost.append(_less(before, after))
        before = after
    return tuple(lost)


def _less(before: Worth | None, after: Worth | None) -> Band | None:
    """The loss at the middle and at both ends, the larger one as the cautious end, the middle never outside."""
    if before is None or after is None:
        return None
    was, then = before.saving_first_year, after.saving_first_year
    pairs = ((was.cautious, then.cautious), (was.middle, then.middle), (was.hopeful, then.hopeful))
    lost = [(one or 0.0) - (other or 0.0) for one, other in pairs]
    return Band(max(lost), lost[1], min(lost))
