"""Until when does a rule hold that a tariff rests on? The dated rule cards tell, as far as they were read."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
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


def dated_by_cards(
    periods: Sequence[Mapping[str, Any]], cards: Sequence[RuleCard], begins_if_open: str
) -> tuple[DatedPeriod, ...]:
    """The periods, oldest first, each that nets beyond the end of netting in its area cut there.

    From the day after on, what the next card says counts: netted goes on, unpaid is unpaid; where payment is a matter
    of contract, surplus earns the period's own export price, or nothing where it has none. Where no later card is
    known, the period goes on and says so. A period that begins after the end is left as its caller wants it.

    Args:
        periods: sparse, in order of time.
        cards: of the area alone, in any order.
        begins_if_open: ISO date that a period without ``valid_from`` begins on.
    """
    dated: list[DatedPeriod] = []
    for at, period in enumerate(periods):
        begins = date.fromisoformat(period.get("valid_from") or begins_if_open)
        until = periods[at + 1].get("valid_from") if at + 1 < len(periods) else None
        card = _ends(cards, begins) if period.get("export") == "netted" else None
        end = None if card is None else card.valid_to
        if card is None or end is None or (until is not None and date.fromisoformat(until) <= end + timedelta(1)):
            dated.append(DatedPeriod(given=period))
            continue
        later = _next(cards, end)
        source = f"rule card {card.id}, in force to {end.isoformat()}, read on {card.checked_on.isoformat()}"
        if later is None:
            dated.append(DatedPeriod(given=period, notes={"export": "no_later_rule_known"}, source=source))
        elif later.export_payment == "netted":
            dated.append(DatedPeriod(given=period))
        else:
            after = _after(period, end + timedelta(1), later.export_payment)
            notes = {"valid_from": "card_ends", "export": "netting_ends"}
            dated += [DatedPeriod(given=period), DatedPeriod(given=after, notes=notes, source=source)]
    return tuple(dated)


def _ends(cards: Sequence[RuleCard], day: date) -> RuleCard | None:
    """The card that lets net on that day and has an end."""
    for card in cards:
        began = card.valid_from is None or card.valid_from <= day
        if card.export_payment == "netted" and began and card.valid_to is not None and card.valid_to >= day:
            return card
    return None


def _next(cards: Sequence[RuleCard], end: date) -> RuleCard | None:
    """The first firm card that begins after a day."""
    later = [(card.valid_from, card) for card in cards if card.valid_from is not None and card.valid_from > end]
    firm = [pair for pair in later if pair[1].status in _FIRM]
    return min(firm, key=lambda pair: pair[0])[1] if firm else None


def _after(period: Mapping[str, Any], begins: date, export_payment: str) -> Mapping[str, Any]:
    """The same period with what is sent out no longer netted."""
    rates: Sequence[Mapping[str, Any]] = period.get("rates") or ()
    hourly: Mapping[str, Any] = period.get("hourly") or {}
    priced = bool(period.get("export_price_per_kwh") or hourly.get("export_prices_per_kwh")) or any(
        rate.get("export_price_per_kwh") for rate in rates
    )
    changed = {**period, "valid_from": begins.isoformat()}
    if export_payment != "unpaid" and priced:
        return {**changed, "export": "paid"}
    changed |= {"export": "unpaid", "export_price_per_kwh": None, "export_tax_share": None}
    if rates:
        bought = [{**rate, "export_price_per_kwh": None} for rate in rates]
        changed["rates"] = [rate for rate in bought if rate.get("import_price_per_kwh") is not None]
    if hourly:
        changed["hourly"] = {**hourly, "export_prices_per_kwh": None}
    return changed
