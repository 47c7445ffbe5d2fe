"""Until when does a rule hold that a tariff rests on? The dated rule cards tell, as far as they were read."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Any

from service.core.rules import RuleCard

# A later card counts where it was adopted for a day; a proposal is no rule to reckon with.
_FIRM = frozenset({"in_force", "adopted_not_yet_in_force"})


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedPeriod:
    """A sparse tariff period; ``notes``: reason codes by field, where a card decided; ``source``: which card."""

    given: Mapping[str, Any]
    notes: Mapping[str, str] = field(default_factory=dict)
    source: str = ""


def as_the_meter_nets(periods: Sequence[Mapping[str, Any]], counts: str | None) -> tuple[DatedPeriod, ...]:
    """The periods, oldest first, as given; on a meter that runs backwards netted for as long as nothing ends it.

    Such a meter nets in the first period whatever was agreed, and goes on where a later one does not say. A later one
    that says unpaid or paid, or has a price for what is sent out, ends it.
    """
    if counts != "reversing":
        return tuple(DatedPeriod(given=period) for period in periods)
    read: list[DatedPeriod] = []
    turns = True
    for at, period in enumerate(periods):
        export = period.get("export") or ("paid" if priced_out(period) else None)
        turns = turns and (at == 0 or export in {None, "netted"})
        notes = {}
        if turns and period.get("export") != "netted":
            notes["export"] = "meter_runs_backwards"
        if turns and period.get("export_price_per_kwh"):
            notes["export_price_per_kwh"] = "no_register_for_it"
        read.append(DatedPeriod(given={**period, "export": "netted"} if turns else period, notes=notes))
    return tuple(read)


def dated_by_cards(
    periods: Sequence[DatedPeriod], cards: Sequence[RuleCard], begins_if_open: str
) -> tuple[DatedPeriod, ...]:
    """The periods, oldest first, each that nets beyond the end of netting in its area cut there.

    From the day after on, what the next card says counts: netted goes on, unpaid is unpaid; where payment is a matter
    of contract, surplus earns the period's own export price, or nothing where it has none. Where no later card is
    known, the period goes on and says so. A period that nets and begins after the end does not net from its first day.

    Args:
        periods: sparse, in order of time.
        cards: of the area alone, in any order.
        begins_if_open: ISO date that a period without ``valid_from`` begins on.
    """
    dated: list[DatedPeriod] = []
    for at, period in enumerate(periods):
        begins = date.fromisoformat(period.given.get("valid_from") or begins_if_open)
        until = periods[at + 1].given.get("valid_from") if at + 1 < len(periods) else None
        card = _ends(cards, begins) if period.given.get("export") == "netted" else None
        end = None if card is None else card.valid_to
        if card is None or end is None or (until is not None and date.fromisoformat(until) <= end + timedelta(1)):
            dated.append(period)
            continue
        later = _next(cards, end)
        source = f"rule card {card.id}, in force to {end.isoformat()}, read on {card.checked_on.isoformat()}"
        if later is None:
            notes = {**period.notes, "export": "no_later_rule_known"}
            dated.append(DatedPeriod(given=period.given, notes=notes, source=source))
            continue
        changed = _after(period.given, later.export_payment)
        if begins > end:
            dated.append(DatedPeriod(given=changed, notes={"export": "netting_ends"}, source=source))
            continue
        changed = {**changed, "valid_from": (end + timedelta(1)).isoformat()}
        notes = {"valid_from": "card_ends", "export": "netting_ends"}
        dated += [period, DatedPeriod(given=changed, notes=notes, source=source)]
    return tuple(dated)


def of_no_known_rule(periods: Sequence[DatedPeriod]) -> tuple[DatedPeriod, ...]:
    """The periods where no place is known, hence no rule: netting goes on, and the last that nets says so.

    Where it nets because the meter runs backwards, it says both.
    """
    nets = [at for at, period in enumerate(periods) if period.given.get("export") == "netted"]
    return tuple(
        replace(period, notes={**period.notes, "export": _WITHOUT_A_RULE[period.notes.get("export", "")]})
        if [at] == nets[-1:]
        else period
        for at, period in enumerate(periods)
    )


_WITHOUT_A_RULE = {"": "no_rule_known", "meter_runs_backwards": "meter_runs_backwards_no_rule_known"}


def priced_out(period: Mapping[str, Any]) -> bool:
    """Does a sparse period have a price for what is sent out?"""
    hourly: Mapping[str, Any] = period.get("hourly") or {}
    return bool(period.get("export_price_per_kwh") or hourly.get("export_prices_per_kwh")) or any(
        rate.get("export_price_per_kwh") for rate in period.get("rates") or ()
    )


def _ends(cards: Sequence[RuleCard], day: date) -> RuleCard | None:
    """The card with which netting ends that was let on that day or before; None where it has no end."""
    began = [
        card
        for card in cards
        if card.export_payment == "netted" and (card.valid_from is None or card.valid_from <= day)
    ]
    card = max(began, key=lambda one: one.valid_to or date.max, default=None)
    while card is not None and card.valid_to is not None:
        later = _next(cards, card.valid_to)
        if later is None or later.export_payment != "netted":
            return card
        card = later
    return None


def _next(cards: Sequence[RuleCard], end: date) -> RuleCard | None:
    """The first firm card that begins after a day."""
    later = [(card.valid_from, card) for card in cards if card.valid_from is not None and card.valid_from > end]
    firm = [pair for pair in later if pair[1].status in _FIRM]
    return min(firm, key=lambda pair: pair[0])[1] if firm else None


def _after(period: Mapping[str, Any], export_payment: str) -> Mapping[str, Any]:
    """The same period with what is sent out no longer netted."""
    if export_payment != "unpaid" and priced_out(period):
        return {**period, "export": "paid"}
    rates: Sequence[Mapping[str, Any]] = period.get("rates") or ()
    hourly: Mapping[str, Any] = period.get("hourly") or {}
    changed = {**period, "export": "unpaid", "export_price_per_kwh": None, "export_tax_share": None}
    if rates:
        bought = [{**rate, "export_price_per_kwh": None} for rate in rates]
        changed["rates"] = [rate for rate in bought if rate.get("import_price_per_kwh") is not None]
    if hourly:
        changed["hourly"] = {**hourly, "export_prices_per_kwh": None}
    return changed
