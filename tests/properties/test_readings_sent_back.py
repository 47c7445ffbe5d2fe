"""Readings of adverts that are sent back: each figure is taken, counts as not told, or is refused at its place."""

import json
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from service.api.schemas.adverts import told_of
from service.api.schemas.mistakes import RefusedRequest
from service.api.schemas.reading import read_body
from service.api.schemas.shortlist import SMALLEST, ShortlistIn
from service.core.adverts import Advert, read_board, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.http.walk import put

DOCUMENT = json.loads((Path(__file__).parents[2] / "openapi/openapi.json").read_text("utf-8"))["components"]["schemas"]
AT = ("adverts", 0, "reading")
WHOLE: dict[str, Any] = {
    "kind": "set", "price": {}, "delivery": {}, "panel": {}, "inverter": {"ac_power_w": 800, "inputs": [{}]},
}  # fmt: skip


def _numbers(name: str, here: tuple[str | int, ...] = AT) -> Iterator[tuple[tuple[str | int, ...], float, float]]:
    """Every numeric field of a component of the document: its place, least and most."""
    for field, node in DOCUMENT[name]["properties"].items():
        if {"number", "integer"}.intersection(node.get("type", ())):
            yield (*here, field), node["minimum"], node["maximum"]
        for one in (node, *node.get("anyOf", ())):
            if "$ref" in one:
                yield from _numbers(one["$ref"].rpartition("/")[2], (*here, field))
        if "$ref" in node.get("items", {}):
            yield from _numbers(node["items"]["$ref"].rpartition("/")[2], (*here, field, 0))


NUMBERS = list(_numbers("ReadAdvertIn"))
FIELDS = [place for place, _, _ in NUMBERS]


def sent_back(place: tuple[str | int, ...], value: Any) -> ShortlistIn:
    """A shortlist asked with one figure of its one reading."""
    request = put(deepcopy(SMALLEST), AT, deepcopy(WHOLE))
    return read_body(ShortlistIn, json.dumps(put(request, place, value)).encode())


def taken_of(request: ShortlistIn, place: tuple[str | int, ...]) -> Any:
    """What stands at the place of a request that was read; None: nothing."""
    node: Any = request
    for part in place:
        node = node[part] if isinstance(part, int) else getattr(node, part)
    return node


def test_the_fields_are_those_of_panel_inverter_price_and_number() -> None:
    names = {str(place[-1]) for place in FIELDS}
    assert {"rated_power_w", "cost", "value", "quantity_available", "panel_count", "max_current_a"} <= names
    assert len(FIELDS) > 30


@pytest.mark.parametrize(("place", "low", "high"), NUMBERS, ids=lambda one: str(one[-1]) if type(one) is tuple else "")
def test_no_figure_that_no_advert_can_mean_is_taken(place: tuple[str | int, ...], low: float, high: float) -> None:
    beyond = [100 * low - 1 if low < 0 else -3.0, 1e9, 1e300, -1e9] + ([0] if low > 0 else [])
    for value in beyond:
        with pytest.raises(RefusedRequest) as refused:
            sent_back(place, value)
        [mistake] = refused.value.mistakes
        assert mistake.pointer == "/" + "/".join(map(str, place))
        assert mistake.code == "out_of_range" or (mistake.code, value) == ("not_whole", 1e300)
        assert mistake.given
        assert mistake.problem
        assert mistake.accepted
        assert taken_of(sent_back(place, json.loads(str(mistake.example))), place) is not None
    for raw in ("NaN", "Infinity", "-Infinity"):
        body = json.dumps(put(put(deepcopy(SMALLEST), AT, deepcopy(WHOLE)), place, "here")).replace('"here"', raw)
        with pytest.raises(RefusedRequest):
            read_body(ShortlistIn, body.encode())


@given(st.sampled_from(NUMBERS), st.floats(-1e6, 1e6) | st.integers(-10, 10) | st.floats(0, 200))
def test_a_figure_is_taken_as_it_is_or_not_at_all(field: tuple[Any, float, float], value: float) -> None:
    place, low, high = field
    try:
        found = taken_of(sent_back(place, value), place)
    except RefusedRequest as error:
        [mistake] = error.mistakes
        assert mistake.pointer == "/" + "/".join(map(str, place))
        assert not low <= value <= high or mistake.code == "not_whole"
        assert value <= 0 or value > high or mistake.code == "not_whole"
        return
    assert found == (value if low <= value <= high else None)


WORDS = vocabulary_of(load_advert_words())
UNITS = ("W", "Wp", "kW", "V Voc", "A Isc", "V", "A", "EUR", "Stück", "pieces", "cells", "mm", "kg", "%/K", "€ Versand")


@given(
    st.lists(
        st.tuples(st.floats(0, 1e12, allow_nan=False) | st.integers(0, 10**12), st.sampled_from(UNITS)), max_size=8
    ),
    st.sampled_from(["Solar panel", "Wechselrichter, microinverter", "Set: 2 panels, 1 inverter", "Module"]),
    st.none() | st.integers(0, 10**12).map(lambda euro: f"{euro} €"),
)
@example([(10, "kW")], "Wechselrichter, microinverter", "1234567890 €")
@example([(370000, "W"), (4000, "V Voc"), (99_999_999, "pieces")], "Solar panel", "999999999999 EUR")
def test_whatever_an_advert_says_its_reading_is_taken_back(figures: list[Any], title: str, price: str | None) -> None:
    body = ", ".join(f"{value:.12g} {unit}" for value, unit in figures)
    [reading] = read_board([Advert(title=title, body=body, price_text=price, language=None)], WORDS)
    told = told_of("a7", reading)
    told["doubts"] = [{"code": one.code} for one in told["doubts"]]
    request = put(deepcopy(SMALLEST), AT, told)
    assert read_body(ShortlistIn, json.dumps(request).encode()).adverts[0].reading is not None
