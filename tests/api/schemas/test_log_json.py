"""However a long body is read, it says the same; and what is wrong in it is told at the same place."""

import json
from typing import Any

import numpy as np
import pytest

from service.api.schemas import log_json
from service.api.schemas.log_json import read_json
from service.api.schemas.logbook import LogbookIn
from service.api.schemas.mistakes import RefusedRequest
from service.api.schemas.reading import read_body
from tests.http.client import SMALLEST

COUNT = 3000


def rows(count: int = COUNT) -> list[list[Any]]:
    return [[f"2025-06-{1 + k // 1440:02d}T{k // 60 % 24:02d}:{k % 60:02d}:00Z", round(0.1 * (k % 700), 1)]
            for k in range(count)]  # fmt: skip


def body(told: list[list[Any]], **more: Any) -> bytes:
    return json.dumps({**SMALLEST, "readings": {"kind": "power", "unit": "w", "rows": told}, **more}).encode()


def columns_of(request: LogbookIn) -> tuple[list[str], list[float]]:
    columns = request.readings.columns()
    assert columns is not None
    return list(columns[0]), np.nan_to_num(np.array(columns[1], dtype=np.float64), nan=-1.0).tolist()


def with_nulls() -> bytes:
    return body([[at, None if k % 50 == 3 else value] for k, (at, value) in enumerate(rows())])


@pytest.mark.parametrize(
    "sent",
    [body(rows()), body(rows()).replace(b", ", b","), with_nulls(), body([[at, int(value)] for at, value in rows()])],
    ids=["spaced", "close", "nulls", "whole"],
)
def test_long_rows_are_read_as_columns_and_say_what_lists_say(sent: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    known = columns_of(read_body(LogbookIn, sent))
    monkeypatch.setattr(log_json, "read_body", None)  # not asked: the quick way it is
    assert columns_of(read_json(sent)) == known


def test_rows_of_neighbours_and_inputs_go_where_they_belong() -> None:
    lower = [[at, value / 2.0] for at, value in rows()]
    sent = json.dumps({
        **SMALLEST,
        "readings": {
            "kind": "power", "unit": "w", "by_input": [{"input": 1, "rows": rows()}, {"input": 2, "rows": lower}]
        },
        "peers": [{"readings": {"kind": "power", "unit": "w", "rows": lower[:2500]}}],
    }).encode()  # fmt: skip
    quick, plain = read_json(sent), read_body(LogbookIn, sent)
    for one, other in zip(log_json._series(quick), log_json._series(plain), strict=True):
        assert (one.columns() is None) == (other.columns() is None)
        if one.columns() is not None:
            assert np.array_equal(*(np.array(told.columns()[1]) for told in (one, other)))


@pytest.mark.parametrize("wrong", [
    b"01.5", b".5", b"5.", b"+5", b"nan", b"NaN", b"-", b"1_0", b"1 2", b'"5"', b"1e10", b"true", b"5,6", b"[5]", b"",
])  # fmt: skip
def test_what_is_no_number_is_told_as_ever(wrong: bytes) -> None:
    sent = body(rows()).replace(b"12.3]", wrong + b"]", 1)
    refused = []
    for read in (lambda: read_json(sent), lambda: read_body(LogbookIn, sent)):
        with pytest.raises(RefusedRequest) as error:
            read()
        refused.append((error.value.code, error.value.mistakes))
    assert refused[0] == refused[1]


def test_another_mistake_beside_long_rows_is_told_with_the_place_that_was_sent() -> None:
    sent = body(rows(), as_of=5) + b" "
    with pytest.raises(RefusedRequest) as error:
        read_json(sent)
    assert [one.pointer for one in error.value.mistakes] == ["/as_of"]
    with pytest.raises(RefusedRequest) as error:
        read_json(sent[:-2])
    assert error.value.code == "malformed_json"
