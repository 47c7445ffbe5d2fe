"""A body beyond doubt is read in half the time; the slower reader, who words every mistake, is the judge."""

import json
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.api.schemas.base import In
from service.api.schemas.mistakes import RefusedRequest
from service.api.schemas.reading import read_body, read_if_sound, read_value, value_of
from service.api.schemas.requests import EnergyIn, PaybackIn
from service.api.schemas.strict_json import DEEPEST, parsed, parsed_if_plain
from tests.http.client import PLAIN, SMALLEST, changed

texts = st.text(st.one_of(st.characters(codec="utf-8"), st.sampled_from('":\\{}[], ')), max_size=8)
values = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-(10**16), 10**17), st.floats(allow_nan=False), texts),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(texts, inner, max_size=4)),
    max_leaves=12,
)


def same(one, other):
    """Equal, of the same kinds, in the same order."""
    return repr(one) == repr(other)


@given(values, st.booleans(), st.sampled_from([(",", ":"), (", ", ": "), (" ,\n", "\t:\r\n")]))
def test_what_is_read_at_once_is_what_is_read_with_care(value, ascii_only, separators):
    body = json.dumps(value, ensure_ascii=ascii_only, separators=separators).encode()
    at_once = parsed_if_plain(body)
    assert at_once is None or same(at_once, parsed(body))


@given(values, st.randoms())
def test_a_body_with_a_piece_too_much_or_too_little_is_read_alike_or_not_at_all(value, chance: random.Random):
    text = json.dumps(value)
    at = chance.randrange(len(text) + 1)
    body = (
        text[:at] + chance.choice(['"', ":", ",", "1", "]", "}", "\\", " ", '"a":1,', ""]) + text[at + 1 :]
    ).encode()
    at_once = parsed_if_plain(body)
    assert at_once is None or same(at_once, parsed(body))


@pytest.mark.parametrize(
    "body",
    [b'{"a": 1, "a": 1}', b'{"a":1,"b":{"c":1,"c" :2}}', b'[{"a":1},{"b":1,"b"\n:1}]', b'{"a": NaN}', b'"\\ud800"',
     b'{"a":1,"\\u0061":2}', b'{"text": "\\":", "a": 1}', b"\xef\xbb\xbf{}",
     b"[" * (DEEPEST + 1) + b"]" * (DEEPEST + 1), b"", b"{", b"[" * 100_000],
)  # fmt: skip
def test_what_is_in_doubt_is_left_to_the_other(body):
    assert parsed_if_plain(body) is None


def test_what_is_as_deep_as_we_read_is_read():
    assert parsed_if_plain(b"[" * DEEPEST + b"]" * DEEPEST) is not None


def test_what_is_long_or_has_many_values_is_left_to_the_other():
    assert parsed_if_plain(json.dumps(["a" * 70_000]).encode()) is None
    assert parsed_if_plain(b"[1,2,3]", 1) is None


REQUESTS: tuple[tuple[type[In], dict], ...] = (
    (EnergyIn, SMALLEST),
    (EnergyIn, changed("/site/people_below", None)),
    (EnergyIn, changed("/arrays/0/count", 2.0)),
    (EnergyIn, changed("/arrays/0/panel/rated_power_w", 410.5)),
    (PaybackIn, PLAIN),
    (PaybackIn, changed("/energy", {"year_kwh": 640, "months": [{"kwh": 1}]}, PLAIN)),
)


@pytest.mark.parametrize(("model", "request_"), REQUESTS)
def test_a_sound_request_is_the_same_from_both(model, request_):
    body = json.dumps(request_).encode()
    sound = read_if_sound(model, body)
    assert sound is not None
    assert same(sound, read_value(model, value_of(model, body)))
    assert same(sound, read_body(model, body))


@pytest.mark.parametrize(
    ("pointer", "value"),
    [("/wrong", 1), ("/arrays/0/panel/rated_power_w", 10**20), ("/arrays/0/count", "2"), ("/as_of", "2026-02-30"),
     ("/arrays/0/panel", {"rated_power_w": 410, "power_tolerance_pct": [3, 0]}), ("/site/latitude_deg", None)],
)  # fmt: skip
def test_what_is_wrong_is_told_by_the_other(pointer, value):
    body = json.dumps(changed(pointer, value)).encode()
    assert read_if_sound(EnergyIn, body) is None
    with pytest.raises(RefusedRequest):
        read_body(EnergyIn, body)


def test_what_is_not_wanted_is_not_looked_at_for_contradictions():
    body = json.dumps(SMALLEST).encode()
    assert read_if_sound(EnergyIn, body, lambda _: False) is None
    assert read_if_sound(EnergyIn, body, lambda _: True) is not None


def test_half_a_character_is_told_where_it_stands() -> None:
    body = rb'{"adverts": [{"id": "a", "title": "whole \ud83d\udd06"}, {"id": "b", "title": "cut \ud83d"}]}'
    assert parsed_if_plain(body) is None
    with pytest.raises(RefusedRequest) as refused:
        parsed(body)
    assert "/adverts/1/title" in refused.value.facts["why"]
