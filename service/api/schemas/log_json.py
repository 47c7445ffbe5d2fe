"""How does a body of many thousand rows become a question about a log without a list for each row?

Long lists of plain rows are cut out of the body and read as two columns; what is left is read as any body is. Whatever
looks in any way odd is read row by row as ever, so that what is said of it does not change.
"""

import re
from collections.abc import Iterator

import numpy as np

from service.api.schemas.log_series import LARGEST_READING, MOST_ROWS, LogSeriesIn, ReadingsIn
from service.api.schemas.logbook import LogbookIn
from service.api.schemas.mistakes import RefusedRequest
from service.api.schemas.reading import read_body, read_value, value_of
from service.core.model.hours import Floats

_ROWS = re.compile(rb'[{,]\s{0,99}"rows"\s{0,99}:\s{0,99}\[\s{0,99}(?=\[)')
_LONG_BYTES = 1 << 15
_CONTROLS = bytes(range(32))
_MARK = "cut out "
_SIGNS = b"0123456789.-+eE,[]"
_NONE, _AS_NAN = ",null]", ",nan]"
_Columns = tuple[list[str], Floats]


def read_json(body: bytes) -> LogbookIn:
    """The request that a body holds.

    Raises:
        RefusedRequest: as ``read_body`` does.
    """
    short, columns = _without_long_rows(body)
    if columns:
        try:
            request = read_value(LogbookIn, value_of(LogbookIn, short))
        except RefusedRequest:
            return read_body(LogbookIn, body)  # with the places of what was really sent
        if _held(request, columns) == len(columns):
            return request
    return read_body(LogbookIn, body)


def _held(request: LogbookIn, columns: list[_Columns]) -> int:
    """Give each series its columns; how many were given."""
    known = {_mark(at): one for at, one in enumerate(columns)}
    count = 0
    for series in _series(request):
        first = series.rows[0] if series.rows and len(series.rows) == 1 else None
        if isinstance(first, list) and (found := known.pop(first[0], None)) is not None:
            series.hold(*found)
            count += 1
    return count


def _series(request: LogbookIn) -> Iterator[LogSeriesIn]:
    logs: list[ReadingsIn] = [request.readings, *(peer.readings for peer in request.peers or ())]
    for readings in logs:
        yield readings
        yield from readings.by_input or ()


def _mark(at: int) -> str:
    return f"{_MARK}{at}"


def _without_long_rows(body: bytes) -> tuple[bytes, list[_Columns]]:
    """The body with one row in place of each long list of plain ones, and their columns."""
    if body.count(b",") > LogbookIn.most_values or b"\\" in body or _MARK.encode() in body:
        return body, []
    kept: list[bytes] = []
    columns: list[_Columns] = []
    at = 0
    for found in _ROWS.finditer(body):
        begin, end = found.end(), body.find(b"]]", found.end())
        if begin < at or end - begin < _LONG_BYTES:
            continue
        read = _columns(body[begin : end + 1])
        if read is None:
            return body, []
        kept += [body[at:begin], f'["{_mark(len(columns))}",0]'.encode()]
        columns.append(read)
        at = end + 1
    return b"".join([*kept, body[at:]]), columns


def _columns(rows: bytes) -> _Columns | None:
    """Times and values of ``["...",1.5],["...",null]``; None: they are not so plain."""
    if not rows.isascii() or len(rows.translate(None, _CONTROLS)) != len(rows):
        return None
    parts = rows.decode("ascii").split('"')
    times = parts[1::2]
    between = "".join(parts[0::2]).replace(", ", ",")
    if len(parts) != 2 * len(times) + 1 or not times or len(times) > MOST_ROWS or "nan" in between:
        return None
    values = _numbers(between)
    return None if values is None or values.size != len(times) else (times, values)


def _numbers(between: str) -> Floats | None:
    """The numbers of ``[,1.5],[,null]``; None: something else stands there."""
    whole = between[:2] == "[," and between[-1:] == "]"
    strange = between.replace(_NONE, "").encode().translate(None, _SIGNS)
    if not whole or strange or _other_than_json(between):
        return None
    try:
        values = np.array(list(map(float, between.replace(_NONE, _AS_NAN)[2:-1].split("],[,"))), dtype=np.float64)
    except ValueError:
        return None
    return None if bool((np.abs(values) > LARGEST_READING).any()) else values


def _other_than_json(between: str) -> bool:
    """Does a number begin with a nought or a point or end with one, as Python takes it and JSON does not?"""
    signed = "-" in between or "+" in between
    for before in (",", ",-") if signed else (",",):
        noughts = between.count(f"{before}0")
        if noughts and noughts != sum(between.count(f"{before}0{after}") for after in ".]eE"):
            return True
    odd = (",.", ".]", ".e", ".E") if "e" in between or "E" in between else (",.", ".]")
    return any(one in between for one in (*odd, ",+", "-.") if signed or one in odd)
