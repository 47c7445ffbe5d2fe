"""How does a table of comma-separated values become a question about a log?

Lines that begin with # come first and hold the set as JSON, as in the JSON form but without ``rows``; then a line of
column names, then the rows. The delimiter (semicolon, comma, tab) and the decimal comma are recognised. A column named
``time``, ``start``, ``middle`` or ``end`` holds the times and tells what they name; the values stand in
``counter_kwh``, ``counter_wh``, ``energy_kwh``, ``energy_wh`` or ``power_w``, or with ``input_1_`` before that for
each input. A ``date`` may stand in a column of its own beside a ``time``; ``power_kw`` is read too. Names are read in
any case, and in German, Dutch and French. Other columns are left out. Rows are read block by block, so that no more
than their columns is kept.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from json import dumps
from typing import Any

import numpy as np

from service.api.schemas.log_series import LARGEST_READING, MOST_ROWS, LogSeriesIn
from service.api.schemas.logbook import LogbookIn
from service.api.schemas.mistakes import Mistake, RefusedRequest, as_example, shown
from service.api.schemas.reading import read_value
from service.api.schemas.requests import SMALLEST
from service.api.schemas.strict_json import parsed
from service.api.words import say
from service.core.model.hours import Floats

_DELIMITERS = (";", "\t", ",")
_TIMES = ("time", "start", "middle", "end")
_DATE, _KILO = "date", 1000.0  # a date may stand apart from its time; power_kw is read as W
_COLUMN = re.compile(r"(?:input_([1-8])_)?(counter_kwh|counter_wh|energy_kwh|energy_wh|power_kw|power_w)")
# The same names in German, Dutch and French, and "Energie (Wh)" for energy_wh.
_LETTERS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "é": "e", "è": "e"})
_OTHER_SIGNS = re.compile(r"[^a-z0-9]+")
_WORDS = {
    "zeit": "time", "zeitpunkt": "time", "zeitstempel": "time", "datum": "date", "tijd": "time",
    "tijdstip": "time", "heure": "time", "uhrzeit": "time", "clock": "time",
    "beginn": "start", "anfang": "start", "begin": "start", "debut": "start",
    "mitte": "middle", "midden": "middle", "milieu": "middle", "ende": "end", "einde": "end", "fin": "end",
    "zaehler": "counter", "zaehlerstand": "counter", "teller": "counter", "tellerstand": "counter",
    "compteur": "counter", "energie": "energy", "ertrag": "energy", "opbrengst": "energy", "production": "energy",
    "leistung": "power", "vermogen": "power", "puissance": "power", "eingang": "input", "ingang": "input",
    "entree": "input",
}  # fmt: skip
_KINDS = {"counter": "counter", "energy": "interval", "power": "power"}
_BLOCK_BYTES = 1 << 18
CSV_SAYS = (
    "First lines that begin with # and hold site, arrays, inverter (and whatever else the JSON form takes) as JSON. "
    "Then a line of column names: `time`, `start`, `middle` or `end` (which moment the times name), and `counter_kwh`, "
    "`counter_wh`, `energy_kwh`, `energy_wh` or `power_w`, for single inputs with `input_1_` before it, or the German, "
    "Dutch or French words for these. Then the rows. "
    "Semicolon, comma or tab as delimiter and a decimal comma are recognised; other columns are left out."
)
_EXAMPLE = f"# {dumps(SMALLEST)}\nstart;energy_wh\n2026-05-01T10:00:00+02:00;212,5\n"
_NEWLINE = ord("\n")
_BY_LINES = ("\r", "\x0b", "\x0c", "\x1c", "\x1d", "\x1e", "\n\n")  # other ends of lines, empty lines
_PLAIN_NUMBERS = frozenset("0123456789+-.eE\n")
_THOUSANDS = re.compile(r"([+-]?\d{1,3}(?:\.\d{3}){1,5}),(\d{1,18})|([+-]?\d{1,3}(?:,\d{3}){1,5})\.(\d{1,18})")
_NOTHING = ("", "-", "null", "nan", "NaN", "n/a", "NA", "None")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Head:
    """The first lines: the set, the delimiter, which column is what, and where the rows begin."""

    said: dict[str, Any]
    delimiter: str
    width: int
    time_at: int
    date_at: int | None
    value_at: tuple[int, ...]
    inputs: tuple[int | None, ...]
    kind: str
    unit: str
    scale: float
    begins: int
    line: int

    @property
    def loose(self) -> tuple[str, ...]:
        """Pairs of signs that stand where a field has spaces about it."""
        return (f"{self.delimiter} ", f" {self.delimiter}", "\n ", " \n")


def read_csv(body: bytes) -> LogbookIn:
    """The request that a table holds.

    Raises:
        RefusedRequest: with the line at which the table stops being one, or all that is wrong with the set.
    """
    head = _head(body)
    times: list[str] = []
    columns: list[list[Floats]] = [[] for _ in head.value_at]
    line = head.line
    for block in _blocks(body, head.begins):
        line += _read_block(block, head, line, times, columns)
        if len(times) > MOST_ROWS:
            raise _refused("csv_rows", line, f"{len(times)} rows", most=MOST_ROWS)
    if not times:
        raise _refused("csv_empty", line, None)
    readings: dict[str, Any] = {"kind": head.kind, "unit": head.unit}
    stamp = _stamp(body, head)
    if stamp is not None:
        readings["stamp"] = stamp
    values = [head.scale * np.concatenate(one) for one in columns]
    # The columns are looked at here, all at once; where one has values out of bounds its rows are, each with its place.
    sound = all(not bool((np.abs(one) > LARGEST_READING).any()) for one in values)
    logs = [[[times[0], _value(one[0])]] if sound else _pairs(times, one) for one in values]
    if head.inputs == (None,):
        readings["rows"] = logs[0]
    else:
        readings["by_input"] = [{"input": number, "rows": rows} for number, rows in zip(head.inputs, logs, strict=True)]
    said = head.said.get("readings")
    own = {key: value for key, value in said.items() if key not in readings} if isinstance(said, dict) else {}
    request = read_value(LogbookIn, {**head.said, "readings": {**own, **readings}})
    series: Sequence[LogSeriesIn] = request.readings.by_input or [request.readings]
    for one, column in zip(series, values, strict=True):
        one.hold(times, column)
    return request


def _pairs(times: Sequence[str], values: Floats) -> list[list[Any]]:
    return [[time, _value(value)] for time, value in zip(times, values, strict=True)]


def _value(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _stamp(body: bytes, head: _Head) -> str | None:
    named = _plain_name(_fields(_line_before(body, head.begins), head.delimiter)[head.time_at])
    return None if named in ("time", _DATE) else named


def _line_before(body: bytes, begins: int) -> str:
    start = body.rfind(b"\n", 0, max(begins - 1, 0)) + 1
    return _text(body[start:begins], 0).strip()


def _head(body: bytes) -> _Head:
    at, line, notes = (3 if body.startswith(b"\xef\xbb\xbf") else 0), 0, []
    while at < len(body):
        end = body.find(b"\n", at)
        end = len(body) if end < 0 else end
        text, at, line = _text(body[at:end], line).strip(), end + 1, line + 1
        if text.startswith("#"):
            notes.append(text[1:])
        elif text:
            return _columns(text, _set("\n".join(notes)), at, line)
    raise _refused("csv_empty", line, None)


def _set(text: str) -> dict[str, Any]:
    """The set, as JSON in the notes before the table."""
    if not text.strip():
        raise _refused("csv_no_set", 1, None)
    try:
        value = parsed(text.encode())
    except RefusedRequest as refused:
        if refused.code != "malformed_json":
            raise
        raise _refused("csv_set_no_json", 1, text, reason=refused.facts["why"]) from None
    if not isinstance(value, dict):
        raise _refused("csv_no_set", 1, text)
    return value


def _columns(text: str, said: dict[str, Any], begins: int, line: int) -> _Head:
    delimiter = max(_DELIMITERS, key=lambda one: (text.count(one), -_DELIMITERS.index(one)))
    names = [_plain_name(name) for name in _fields(text, delimiter)]
    times = [at for at, name in enumerate(names) if name in _TIMES]
    dates = [at for at, name in enumerate(names) if name == _DATE]
    if not times:
        times, dates = dates, []
    found = [(at, match) for at, name in enumerate(names) if (match := _COLUMN.fullmatch(name))]
    kinds = {match[2] for _, match in found}
    numbers = [None if match[1] is None else int(match[1]) for _, match in found]
    if (
        len(times) != 1
        or len(dates) > 1
        or len(kinds) != 1
        or len(set(numbers)) != len(numbers)
        or (None in numbers and len(numbers) > 1)
    ):
        raise _refused("csv_columns", line, text)
    what, _, unit = kinds.pop().partition("_")
    return _Head(
        said=said, delimiter=delimiter, width=len(names), time_at=times[0],
        date_at=dates[0] if dates else None, value_at=tuple(at for at, _ in found),
        inputs=tuple(numbers), kind=_KINDS[what],
        unit=unit.removeprefix("k") if what == "power" else unit, scale=_KILO if unit == "kw" else 1.0,
        begins=min(begins, 1 << 62), line=line,
    )  # fmt: skip


def _plain_name(name: str) -> str:
    """A column's name in the words of the documented ones."""
    words = _OTHER_SIGNS.sub("_", name.casefold().translate(_LETTERS)).strip("_").split("_")
    return "_".join(_WORDS.get(word, word) for word in words)


def _fields(line: str, delimiter: str) -> list[str]:
    return [field.strip().strip('"').strip() for field in line.split(delimiter)]


def _blocks(body: bytes, begins: int) -> Iterator[bytes]:
    """The rows in pieces that end with a line."""
    at = begins
    while at < len(body):
        end = body.find(b"\n", min(at + _BLOCK_BYTES, len(body)))
        end = len(body) if end < 0 else end + 1
        yield body[at:end]
        at = end


def _read_block(block: bytes, head: _Head, line: int, times: list[str], columns: Sequence[list[Floats]]) -> int:
    """Add the rows of a block; how many lines it has."""
    text = _text(block, line)
    if '"' in text:
        text = text.replace('"', "")
    flat = _even_rows(text, head)
    if flat is not None:
        times += _times(flat[head.time_at :: head.width], head.date_at, lambda at: flat[at :: head.width])
        for at, column in zip(head.value_at, columns, strict=True):
            column.append(_numbers(flat[at :: head.width], line))
        return len(flat) // head.width
    lines = text.splitlines()
    rows = [text.split(head.delimiter) for text in lines if text.strip()]
    if head.delimiter == "," and any(len(row) != head.width for row in rows):
        raise _refused("csv_width", line + 1 + _first_odd(lines, head), None, width=head.width)
    if any(len(row) < head.width for row in rows):
        raise _refused("csv_width", line + 1 + _first_odd(lines, head), None, width=head.width)
    here = [row[head.time_at].strip() for row in rows]
    times += _times(here, head.date_at, lambda at: [row[at].strip() for row in rows])
    for at, column in zip(head.value_at, columns, strict=True):
        texts = [row[at].strip() for row in rows]
        column.append(_numbers(texts, line))
    return len(lines)


def _times(times: list[str], date_at: int | None, column: Callable[[int], list[str]]) -> list[str]:
    """Times, with the dates before them where these stand in a column of their own."""
    if date_at is None:
        return times
    return [f"{day} {time}" for day, time in zip(column(date_at), times, strict=True)]


def _even_rows(text: str, head: _Head) -> list[str] | None:
    """All fields of a block one after the other, where each line has as many as the head and no spaces about them.

    None: its lines have to be looked at one by one.
    """
    text = text.replace("\r\n", "\n").removesuffix("\n")
    if not text.isascii() or text[:1] in ("", " ", "\n") or text[-1:] in (" ", "\n"):
        return None
    if any(signs in text for signs in (*_BY_LINES, *head.loose)):
        return None
    letters = np.frombuffer(text.encode(), dtype=np.uint8)
    ends = np.flatnonzero(letters == _NEWLINE)
    marks = np.flatnonzero(letters == ord(head.delimiter))
    # As many delimiters as width less one stand between one newline and the next.
    inside = np.diff(np.searchsorted(marks, np.concatenate([[0], ends, [letters.size]])))
    if not bool((inside == head.width - 1).all()):
        return None
    return text.replace("\n", head.delimiter).split(head.delimiter)


def _numbers(texts: Sequence[str], line: int) -> Floats:
    """All at once where they are plain; one by one where some are not. Nan where there is none."""
    joined = "\n".join(texts)
    if "," in joined and "." not in joined:
        joined = joined.replace(",", ".")
    if _PLAIN_NUMBERS.issuperset(joined):
        plain = joined.split("\n")
        try:
            return np.array(list(map(float, plain if all(plain) else (text or "nan" for text in plain))))
        except ValueError:
            pass
    return np.array([_number(text, line, place) for place, text in enumerate(texts)], dtype=np.float64)


def _first_odd(lines: Sequence[str], head: _Head) -> int:
    return next(at for at, text in enumerate(lines) if text.strip() and text.count(head.delimiter) + 1 != head.width)


def _number(text: str, line: int, place: int) -> float | None:
    """A number with a point or a comma; 1.234,5 and 1,234.5 have thousands marked off, 1.234 alone has none."""
    if text in _NOTHING:
        return None
    if (marked := _THOUSANDS.fullmatch(text)) is not None:
        thousands, mark = (marked[1], ".") if marked[1] is not None else (marked[3], ",")
        return float(f"{thousands.replace(mark, '')}.{marked[2] or marked[4]}")
    plain = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
    if not re.fullmatch(r"[+-]?\d{1,18}(\.\d{0,18})?([eE][+-]?\d{1,2})?|[+-]?\.\d{1,18}", plain):
        raise _refused("csv_number", line + place + 1, text)
    return float(plain)


def _text(piece: bytes, line: int) -> str:
    try:
        return piece.decode("utf-8")
    except UnicodeDecodeError:
        raise _refused("csv_utf8", line + 1, None) from None


def _refused(why: str, line: int, given: Any, **facts: Any) -> RefusedRequest:
    """A table that is none: the line is told in the text, as a table has no pointers."""
    mistake = Mistake(
        code="wrong_form", pointer="", given=None if given is None else shown(given),
        problem=say("problems", f"mistake.{why}", {"line": line, **facts}),
        accepted=say("problems", "accepted.csv"), example=as_example(_EXAMPLE),
    )  # fmt: skip
    return RefusedRequest("invalid_request", (mistake,))
