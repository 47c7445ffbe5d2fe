"""What are the tariff, the account, the circuit and the meter, as far as was said? Made up once of each met lately.

A home is asked about again and again with another demand, other panels or a battery. None of these hangs on that, nor
on the place but for whose rules hold there.
"""

import marshal
from dataclasses import dataclass
from datetime import date

from service.core.completion.fill_home import circuit_of, money_of
from service.core.completion.fill_tariff import meter_of, tariff_of
from service.core.completion.node import Node
from service.core.completion.tables import DefaultTables
from service.core.model.assumption import Assumption
from service.core.model.facts import Meter, Money, SocketCircuit, Tariff
from service.core.model.memo import QuickMemo

_PARTS = ("tariff", "meter", "money", "socket_circuit", "downtime_days_per_year")
# A year of hourly prices is longer: to look for it costs what it saves.
_LONGEST_BYTES = 8192


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CompletedTerms:
    """What was made up, and what of it was assumed: ``assumed`` of tariff and account, ``assumed_then`` of the rest."""

    tariff: Tariff | None
    money: Money
    assumed: tuple[Assumption, ...]
    circuit: SocketCircuit | None
    downtime_days_per_year: float
    meter: Meter
    assumed_then: tuple[Assumption, ...]


KnownTerms = QuickMemo[tuple[bytes, str, date], CompletedTerms]


def terms_of(
    root: Node, area: str, tables: DefaultTables, as_of: date, known: KnownTerms | None = None
) -> CompletedTerms:
    """The terms of a request; what of them was not given is left to the caller to write down.

    Args:
        root: the request.
        area: whose rules hold.
        tables: dated prices and rule cards.
        as_of: the day of the question.
        known: those completed lately with the same tables, to be looked in and added to; None: they are not kept.

    Raises:
        ContradictionError: parts exclude each other.
    """
    if known is None:
        return _completed(root, area, tables, as_of)
    # A text of values and their kinds, as in ``fill_set``.
    sent = marshal.dumps([root.get(name) for name in _PARTS], 2)
    if len(sent) > _LONGEST_BYTES:
        return _completed(root, area, tables, as_of)
    return known.get((sent, area, as_of), lambda: _completed(root, area, tables, as_of))


def _completed(root: Node, area: str, tables: DefaultTables, as_of: date) -> CompletedTerms:
    log: list[Assumption] = []
    own = Node(root.given, root.pointer, log)
    tariff = tariff_of(own.child("tariff"), own.child("meter"), area, tables, as_of)
    money = money_of(own.child("money"))
    assumed = tuple(log)
    return CompletedTerms(
        tariff=tariff,
        money=money,
        assumed=assumed,
        circuit=circuit_of(own.child_if_given("socket_circuit"), area),
        downtime_days_per_year=own.take("downtime_days_per_year"),
        meter=meter_of(own.child("meter"), tariff),
        assumed_then=tuple(log[len(assumed) :]),
    )
