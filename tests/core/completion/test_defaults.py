"""Column rules of the table of defaults, and its words."""

import re

import pytest

from service.api.words.english.assumptions import TEXTS
from service.core.completion import default_rows

ROWS = default_rows()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.pointer} {row.code}")
def test_every_row_has_a_pointer_a_reason_a_source_and_a_value_or_rule(row):
    assert re.fullmatch(r"(/(\*|\w+))+", row.pointer)
    assert re.fullmatch(r"[a-z_]+", row.code)
    assert row.source
    assert (row.value is None) == bool(row.rule) or row.code == "rating_missing"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.pointer} {row.code}")
def test_a_range_has_two_ends_in_order_about_the_value(row):
    assert (row.low is None) == (row.high is None)
    if row.low is not None:
        assert row.low < row.high
        if isinstance(row.value, int | float):
            assert row.low <= row.value <= row.high


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.pointer} {row.code}")
def test_every_reason_has_a_sentence(row):
    assert row.code in TEXTS


def test_no_pointer_stands_twice_with_the_same_reason():
    keys = [(row.pointer, row.code) for row in ROWS]
    assert len(keys) == len(set(keys))


def test_units_follow_the_end_of_the_name():
    units = {"_w": "W", "_v": "V", "_a": "A", "_deg": "deg", "_mm": "mm", "_mm2": "mm2", "_kg": "kg", "_m": "m",
             "_c": "C", "_pct_per_k": "%/K"}  # fmt: skip
    for row in ROWS:
        ending = max((end for end in units if row.pointer.endswith(end)), key=len, default=None)
        if ending is not None:
            assert row.unit == units[ending], row.pointer


@pytest.mark.parametrize("text", TEXTS.values())
def test_no_sentence_calls_a_thing_beyond_doubt(text):
    assert not re.search(r"(?i)\b(safe|safely|legal|legally|allowed)\b", text)
    assert text.endswith(".")
