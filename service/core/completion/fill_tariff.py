"""What does a kWh cost and earn, from which day on, as far as was said, and how does the meter count?"""

from collections.abc import Mapping
from datetime import date
from itertools import pairwise
from typing import Any

import numpy as np

from service.core.completion.card_dates import (
    DatedPeriod,
    as_the_meter_nets,
    dated_by_cards,
    of_no_known_rule,
    priced_out,
)
from service.core.completion.fill_home import NO_COUNTRY
from service.core.completion.node import Guess, Node
from service.core.completion.tables import DefaultTables
from service.core.completion.tariff_contradictions import contradictions_of_tariff, rate_of
from service.core.errors import ContradictionError
from service.core.model.facts import HourlyPrices, Meter, Tariff, TariffPeriod
from service.core.model.price import HouseholdPrice

# Netting that no meter does by itself.
BY_BILL = frozenset({"month", "year"})


def meter_of(node: Node, tariff: Tariff | None) -> Meter:
    """The meter; whether it sums phases stays None where nobody said.

    Where the tariff nets and nobody said over what, it is the year. Over months and years it is the supplier's bill
    that nets, and the rule for that may end: a period nets that says so, and where none does, that is written down.
    """
    nets = tariff is not None and any(period.export == "netted" for period in tariff.periods)
    given = node.get("netting")
    if given in BY_BILL and tariff is not None and not nets:
        node.assume("netting", Guess(value=given, code="nets_where_a_period_does"))
    guess = Guess(value="year", code="netted_over_the_year") if nets else None
    return Meter(counts=node.take("counts"), sums_phases=node.get("sums_phases"), netting=node.take("netting", guess))


def tariff_of(node: Node, meter: Node, area: str, tables: DefaultTables, as_of: date) -> Tariff | None:
    """The tariff as given, else the area's dated price; None where no price is known (it is asked for, not guessed).

    A rule of the area that has an end ends a period that rests on it. A first period that has yet to begin is taken to
    hold already, and that is written down.

    Raises:
        ContradictionError: the periods do not follow each other in time, or parts of one exclude each other.
    """
    for error in contradictions_of_tariff(node.given, meter.given):
        raise error
    found = tables.prices.of(area)
    currency = node.get("currency")
    if found is not None and currency not in {None, found.currency}:
        found = None  # a price in another currency is no figure for this caller
    given: list[Mapping[str, Any]] = list(node.get("periods") or [{}])
    if found is None and any(_price_open(period) for period in given):
        return None
    if currency is None:
        if found is None:
            raise ContradictionError(
                node.at("currency"), f"is missing, and none is known for {area}", accepted="an ISO 4217 code",
                example="EUR",
            )  # fmt: skip
        currency = node.take("currency", Guess(value=found.currency))
    this_year = f"{as_of.year:04d}-01-01"
    _ordered(node, given, this_year)
    read = as_the_meter_nets(given, meter.get("counts"))
    nowhere = area == NO_COUNTRY
    dated = of_no_known_rule(read) if nowhere else dated_by_cards(read, tables.cards_of(area), this_year)
    tariff = Tariff(
        currency=currency,
        periods=tuple(_period(node, at, period, found, this_year) for at, period in enumerate(dated)),
    )
    if (first := tariff.periods[0].valid_from) > as_of.isoformat():
        node.children("periods")[0].assume("valid_from", Guess(value=first, code="holds_before"))
    return tariff


def _price_open(period: Mapping[str, Any]) -> bool:
    return period.get("import_price_per_kwh") is None and period.get("hourly") is None


def _ordered(node: Node, given: list[Mapping[str, Any]], this_year: str) -> None:
    begin = [period.get("valid_from") or this_year for period in given]
    for at, (before, after) in enumerate(pairwise(begin), start=1):
        if before >= after:
            where = f"{node.at('periods')}/{at}/valid_from"
            raise ContradictionError(
                where, "does not come after the period before it", given=after,
                accepted="periods with the oldest first, no two from the same day",
                example=f"{int(before[:4]) + 1:04d}{before[4:].replace('-02-29', '-03-01')}",
            )  # fmt: skip


def _period(tariff: Node, at: int, dated: DatedPeriod, found: HouseholdPrice | None, this_year: str) -> TariffPeriod:
    node = Node(dated.given, f"{tariff.at('periods')}/{at}", tariff.log)
    for name, note in dated.notes.items():
        value = 0.0 if note == "no_register_for_it" else node.get(name)
        node.assume(name, Guess(value=value, code=note, source=dated.source))
    hourly = _hourly(node.child_if_given("hourly"))
    prices_out = hourly and hourly.export_prices_per_kwh
    export = node.take("export", _export(node))
    return TariffPeriod(
        valid_from=node.take("valid_from", Guess(value=this_year)),
        import_price_per_kwh=(
            node.take("import_price_per_kwh", _area_price(found))
            if hourly is None
            else float(np.mean(hourly.import_prices_per_kwh))
        ),
        export=export,
        export_price_per_kwh=float(np.mean(prices_out)) if prices_out else node.take("export_price_per_kwh"),
        rates=tuple(rate_of(rate) for rate in node.get("rates") or ()),
        hourly=hourly,
        fee_per_year=node.get("fee_per_year"),
        fee_per_kva_year=node.get("fee_per_kva_year"),
        export_tax_share=node.get("export_tax_share"),
    )


def _hourly(node: Node | None) -> HourlyPrices | None:
    if node is None:
        return None
    out = node.get("export_prices_per_kwh")
    return HourlyPrices(
        import_prices_per_kwh=tuple(node.get("import_prices_per_kwh")),
        export_prices_per_kwh=None if out is None else tuple(out),
    )


def _export(node: Node) -> Guess | None:
    """A price for what is sent out says that it is paid."""
    if priced_out(node.given):
        return Guess(value="paid", code="paid_as_priced")
    return None


def _area_price(found: HouseholdPrice | None) -> Guess | None:
    if found is None:
        return None
    figure = found.price_per_kwh
    # fixed charges inside the average do not shrink with use: a kWh saved is then worth less, never more
    high = figure if found.fixed_charges_inside else 1.25 * figure
    middle = (0.75 * figure + high) / 2
    return Guess(value=round(middle, 4), low=round(0.75 * figure, 4), high=round(high, 4),
                 source=f"household average, {found.period}: {found.source}")  # fmt: skip
