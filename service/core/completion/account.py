"""What is the complete account, where a caller brings a yield of its own and asks about the money alone?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from service.core.completion.fill_home import NO_COUNTRY, money_of, rule_area_of
from service.core.completion.fill_outlay import outlay_of
from service.core.completion.fill_tariff import meter_of, tariff_of
from service.core.completion.node import Node
from service.core.completion.tables import DefaultTables
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Meter, Money, Outlay, Tariff


@dataclass(frozen=True, slots=True, kw_only=True)
class CompletedAccount:
    """Tariff, meter, outlay and conventions, complete, and what in them was assumed.

    ``rule_area``: whose rules and prices were taken; None where no place is known.
    """

    rule_area: str | None
    tariff: Tariff | None
    meter: Meter
    outlay: Outlay | None
    money: Money
    assumptions: Assumptions


def complete_account(
    given: Mapping[str, Any], tables: DefaultTables, as_of: date, country: str | None = None
) -> CompletedAccount:
    """Fill tariff, meter and money from the one table of defaults; nothing else of the request is looked at.

    Args:
        given: the request as sent; ``tariff``, ``meter``, ``outlay``, ``money`` and ``site.rule_area`` are read.
        tables: dated tables that defaults draw on.
        as_of: the day of the question.
        country: ISO 3166 code of the country at the site's coordinates; None without a site, and at sea.

    Raises:
        ContradictionError: parts of the request exclude each other.
    """
    log: list[Assumption] = []
    root = Node(given, "", log)
    site = root.child_if_given("site")
    area = NO_COUNTRY if site is None else rule_area_of(site, country)
    tariff = tariff_of(root.child("tariff"), root.child("meter"), area, tables, as_of)
    return CompletedAccount(
        rule_area=None if area == NO_COUNTRY else area,
        tariff=tariff,
        meter=meter_of(root.child("meter"), tariff),
        outlay=outlay_of(root.child("outlay")),
        money=money_of(root.child("money")),
        assumptions=Assumptions.of(log),
    )
