"""What is wrong with the rows of a log, and which columns do they make? Looked at all at once: there may be many."""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from service.api.schemas.inverter import InverterIn
from service.api.schemas.log_series import EXAMPLE_ROWS, LARGEST_READING, MONTHS, LogSeriesIn, ReadingsIn
from service.api.schemas.mistakes import NOTHING, Found, Mistake, as_example, shown
from service.api.words import say
from service.core.model.hours import Floats

_MOST_TOLD = 5  # of one list
_NUMBERS = {int, float}
_EXAMPLE_VALUE = 212


def of_readings(readings: ReadingsIn, inverter: InverterIn, pointer: str, found: Found) -> None:
    """All that the log at ``pointer``, of a set with this inverter, has wrong with it."""
    if readings.unit is None:
        if readings.kind != "power":
            found.mistakes.append(
                _missing(f"{pointer}/unit", "log_unit", "kwh", "accepted.one_of", words=("kwh", "wh"))
            )
    elif (readings.kind == "power") != (readings.unit == "w"):
        words = ("w",) if readings.kind == "power" else ("kwh", "wh")
        accepted = say("problems", "accepted.one_of", {"words": words})
        found.contradiction(f"{pointer}/unit", readings.unit, "log_unit", accepted, words[0], kind=readings.kind)
    if readings.by_input is None:
        _of_series(readings, pointer, readings.kind, found)
        return
    for name in ("rows", "first", "step_minutes", "values"):
        if (value := getattr(readings, name)) is not None:
            accepted = say("problems", "accepted.alone", {"beside": "by_input"})
            found.contradiction(f"{pointer}/{name}", value, "log_twice", accepted, NOTHING)
    seen: set[int] = set()
    count = inverter.input_count or len({one.input for one in readings.by_input})
    for at, one in enumerate(readings.by_input):
        here = f"{pointer}/by_input/{at}"
        if one.input in seen:
            free = next(
                number for number in range(1, 100) if number not in {other.input for other in readings.by_input}
            )
            accepted = say("problems", "accepted.own_input")
            found.contradiction(f"{here}/input", one.input, "input_twice", accepted, free)
        elif inverter.input_count is not None and one.input > inverter.input_count:
            accepted = say("problems", "accepted.whole", {"low": 1, "high": count})
            found.contradiction(f"{here}/input", one.input, "input", accepted, 1, input_count=count)
        seen.add(one.input)
        _of_series(one, here, readings.kind, found)


def _of_series(series: LogSeriesIn, pointer: str, kind: str, found: Found) -> None:
    even = [name for name in ("first", "step_minutes", "values") if getattr(series, name) is not None]
    if series.rows is not None:
        for name in even:
            accepted = say("problems", "accepted.alone", {"beside": "rows"})
            found.contradiction(f"{pointer}/{name}", getattr(series, name), "log_twice", accepted, NOTHING)
        found.mistakes += list(_of_rows(series, f"{pointer}/rows"))
        return
    if kind == MONTHS or not even:
        found.mistakes.append(_missing(f"{pointer}/rows", "log_rows", EXAMPLE_ROWS))
        return
    examples = {"first": "2025-03-01T00:00:00+01:00", "step_minutes": 15, "values": [_EXAMPLE_VALUE]}
    for name, example in examples.items():
        if name not in even:
            found.mistakes.append(_missing(f"{pointer}/{name}", "log_steps", example))
    if series.values is not None:
        found.mistakes += list(_of_values(series.values, f"{pointer}/values"))


def _missing(pointer: str, why: str, example: Any, accepted: str = "accepted.log", **facts: Any) -> Mistake:
    return Mistake(
        code="missing", pointer=pointer, problem=say("problems", f"mistake.missing.{why}"),
        accepted=say("problems", accepted, facts), example=as_example(example),
    )  # fmt: skip


def _of_rows(series: LogSeriesIn, pointer: str) -> Iterator[Mistake]:
    """The first rows that are no pair of a time and a value."""
    columns = series.columns()
    if columns is not None and set(map(type, columns[0])) == {str}:
        mistakes = list(_of_values(columns[1], pointer, "/1"))
        if not mistakes:
            series.hold(columns[0], column_of(columns[1]))
        yield from mistakes
        return
    told = 0
    for at, row in enumerate(series.rows or ()):
        if (mistake := _of_row(row, f"{pointer}/{at}")) is not None:
            yield mistake
            told += 1
        if told == _MOST_TOLD:
            return


def _of_row(row: Any, pointer: str) -> Mistake | None:
    if type(row) is not list:
        return _wrong("not_a_list", pointer, row, "accepted.log_row", EXAMPLE_ROWS[0])
    if len(row) != 2:
        return _wrong("wrong_count", pointer, row, "accepted.log_row", EXAMPLE_ROWS[0])
    if type(row[0]) is not str:
        return _wrong("not_text", f"{pointer}/0", row[0], "accepted.form.log_time", EXAMPLE_ROWS[0][0])
    return next(_of_values([row[1]], pointer, "", [1]), None)


def _of_values(
    values: Sequence[Any] | Floats, pointer: str, after: str = "", places: Sequence[int] | None = None
) -> Iterator[Mistake]:
    """The first values that are no numbers, or out of bounds."""
    facts = {"low": f"{-LARGEST_READING:.0f}", "high": f"{LARGEST_READING:.0f}"}
    plain = isinstance(values, np.ndarray) or set(map(type, values)) <= {int, float, type(None)}
    if plain and _in_bounds(values):
        return
    told = 0
    for at, value in enumerate(values):
        place = f"{pointer}/{places[at] if places else at}{after}"
        if value is not None and type(value) not in _NUMBERS:
            key = {str: "not_a_number.text", bool: "not_a_number.truth"}.get(type(value), "not_a_number")
            yield _wrong("not_a_number", place, value, "accepted.number", _EXAMPLE_VALUE, key=key, **facts)
        elif value is not None and not abs(value) <= LARGEST_READING:
            yield _wrong("out_of_range", place, value, "accepted.number", _EXAMPLE_VALUE, **facts)
        else:
            continue
        told += 1
        if told == _MOST_TOLD:
            return


def _in_bounds(values: Sequence[Any] | Floats) -> bool:
    try:
        column = column_of(values)
    except OverflowError:
        return False
    return not bool((np.abs(column) > LARGEST_READING).any())


def column_of(values: Sequence[Any] | Floats) -> Floats:
    """Numbers, nan where there is none."""
    if isinstance(values, np.ndarray):
        return values
    return np.array(values, dtype=np.float64)


def _wrong(code: str, pointer: str, given: Any, accepted: str, example: Any, key: str = "", **facts: Any) -> Mistake:
    return Mistake(
        code=code, pointer=pointer, given=shown(given), problem=say("problems", f"mistake.{key or code}"),
        accepted=say("problems", accepted, facts), example=as_example(example),
    )  # fmt: skip
