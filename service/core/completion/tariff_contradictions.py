"""Which parts of a tariff cannot both hold? Found in the sparse request, all of them, each with its place."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import Rate
from service.core.model.hours import HOURS
from service.core.payback import rate_of_minute

Sparse = Mapping[str, Any]

_LENGTHS = (24, 168, HOURS)
_NOTHING = "null"  # the example where only leaving a part out is accepted


def contradictions_of_tariff(tariff: Sparse | None, meter: Sparse | None = None) -> tuple[ContradictionError, ...]:
    """Every contradiction within the periods of a tariff and with the meter, in the request's order; none is raised.

    Args:
        tariff: as sent, sparse; bounds of single fields have been checked.
        meter: as sent, or None.
    """
    found: list[ContradictionError] = []
    for at, period in enumerate((tariff or {}).get("periods") or ()):
        pointer = f"/tariff/periods/{at}"
        found += _hourly(period, pointer, (meter or {}).get("counts"))
        found += _rates(period.get("rates") or (), f"{pointer}/rates")
        found += _unpaid(period, pointer)
    return tuple(found)


def rate_of(given: Sparse) -> Rate:
    """One rate as sent."""
    months: Sequence[int] | None = given.get("months")
    return Rate(
        name=given.get("name"),
        months=None if months is None else tuple(months),
        days=given.get("days"),
        from_clock=given.get("from_clock"),
        to_clock=given.get("to_clock"),
        import_price_per_kwh=given.get("import_price_per_kwh"),
        export_price_per_kwh=given.get("export_price_per_kwh"),
    )


def _hourly(period: Sparse, pointer: str, counts: str | None) -> Iterator[ContradictionError]:
    hourly = period.get("hourly")
    if hourly is None:
        return
    if period.get("rates"):
        yield ContradictionError(
            f"{pointer}/hourly",
            "stands beside rates; give one of them",
            accepted="rates by the clock, or hourly prices",
            example=_NOTHING,
        )
    bought, sold = hourly.get("import_prices_per_kwh"), hourly.get("export_prices_per_kwh")
    for name, values, own in (
        ("import", bought, period.get("import_price_per_kwh")),
        ("export", sold, period.get("export_price_per_kwh")),
    ):
        if values is None:
            continue
        where = f"{pointer}/hourly/{name}_prices_per_kwh"
        if len(values) not in _LENGTHS:
            yield ContradictionError(
                where, f"has {len(values)} values", given=len(values),
                accepted="24 prices (a day by the clock), 168 (a week from Monday) or 8760 (a year)",
                example=[0.31] * 24,
            )  # fmt: skip
        if own is not None:
            yield ContradictionError(
                f"{pointer}/{name}_price_per_kwh", "stands beside hourly prices of the same; give one of them",
                given=own, accepted="nothing, or null", example=_NOTHING,
            )  # fmt: skip
    if counts == "reversing":
        yield ContradictionError(
            f"{pointer}/hourly", "needs a meter that keeps the hours apart, and the meter runs backwards",
            accepted="nothing, or null: one price or rates instead; or another meter", example=_NOTHING,
        )  # fmt: skip


def _rates(rates: Sequence[Sparse], pointer: str) -> Iterator[ContradictionError]:
    sound = []
    for at, given in enumerate(rates):
        mistakes = list(_window(given, f"{pointer}/{at}"))
        if given.get("import_price_per_kwh") is None and given.get("export_price_per_kwh") is None:
            mistakes.append(
                ContradictionError(
                    f"{pointer}/{at}", "has no price", accepted="import_price_per_kwh, export_price_per_kwh or both",
                    example={**given, "import_price_per_kwh": 0.22},
                )
            )  # fmt: skip
        yield from mistakes
        if not any(error.pointer != f"{pointer}/{at}" for error in mistakes):
            sound.append((at, rate_of(given)))
    yield from _never_holding(rates, sound, pointer)


def _never_holding(
    rates: Sequence[Sparse], sound: Sequence[tuple[int, Rate]], pointer: str
) -> Iterator[ContradictionError]:
    """Rates that earlier ones leave no time; the example has the ones of fewer hours first, each that then holds."""
    if not sound:
        return
    held = _holding([rate for _, rate in sound])
    dead = [at for index, (at, _) in enumerate(sound) if index not in held]
    if not dead:
        return
    ordered = sorted(sound, key=lambda one: int((rate_of_minute((one[1],)) >= 0).sum()))
    holding = _holding([rate for _, rate in ordered])
    named = ", ".join(str(at + 1) for at in dead)
    yield ContradictionError(
        pointer, f"rate {named} of the list never holds: rates before it hold at all of its times",
        given=[dict(one) for one in rates], accepted="the rate of fewer hours first, each with hours of its own",
        example=[dict(rates[at]) for index, (at, _) in enumerate(ordered) if index in holding],
    )  # fmt: skip


def _holding(rates: Sequence[Rate]) -> frozenset[int]:
    minutes_of_none_and_each = np.bincount(rate_of_minute(tuple(rates)).ravel() + 1)
    return frozenset(np.flatnonzero(minutes_of_none_and_each[1:]).tolist())


def _window(given: Sparse, pointer: str) -> Iterator[ContradictionError]:
    begin, end = given.get("from_clock"), given.get("to_clock")
    if (begin is None) != (end is None):
        missing, example = ("from_clock", "22:00") if begin is None else ("to_clock", "06:00")
        yield ContradictionError(
            f"{pointer}/{missing}", "is missing beside the other end",
            accepted="both ends, or neither for the whole day", example=example,
        )  # fmt: skip
    elif begin is not None and begin == end:
        yield ContradictionError(
            f"{pointer}/to_clock", "is where the rate begins too", given=end,
            accepted="a later or an earlier time, or neither end for the whole day", example="06:00",
        )  # fmt: skip
    months = given.get("months") or ()
    if len(set(months)) < len(months):
        yield ContradictionError(
            f"{pointer}/months", "names a month twice", given=list(months), accepted="each month once",
            example=sorted(set(months)),
        )  # fmt: skip


def _unpaid(period: Sparse, pointer: str) -> Iterator[ContradictionError]:
    """A price for what is said to be unpaid."""
    if period.get("export") != "unpaid":
        return
    hourly = period.get("hourly") or {}
    prices = [(f"{pointer}/export_price_per_kwh", period.get("export_price_per_kwh"))]
    prices += [
        (f"{pointer}/rates/{at}/export_price_per_kwh", rate.get("export_price_per_kwh"))
        for at, rate in enumerate(period.get("rates") or ())
    ]
    prices += [(f"{pointer}/hourly/export_prices_per_kwh", max(hourly.get("export_prices_per_kwh") or [0.0], key=abs))]
    for where, price in prices:
        if price:
            yield ContradictionError(
                where, "is a price for what is said to be unpaid", given=price,
                accepted="export paid or netted, or no export price",
                example=_NOTHING,
            )  # fmt: skip
