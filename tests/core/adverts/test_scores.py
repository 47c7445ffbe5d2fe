"""Adverts with their true readings are read rightly; when unsure, a value is left out."""

import json
from pathlib import Path

import pytest

from service.bench.adverts import scored, shares
from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import LANGUAGES, load_advert_words

WORDS = vocabulary_of(load_advert_words())
HERE = Path(__file__).parent
FILES = ("invented_adverts.jsonl", "further_adverts.jsonl", "sellers_adverts.jsonl", "finer_adverts.jsonl")


def rows_of(name):
    return [json.loads(line) for line in (HERE / name).read_text(encoding="utf-8").splitlines()]


@pytest.mark.parametrize("name", FILES)
def test_adverts_are_read_as_a_careful_reader_would(name):
    scores, misses = scored(rows_of(name), WORDS)
    found = shares(scores)
    assert found["precision"] >= 0.95, misses
    assert found["f1"] >= 0.95, misses
    assert found["precision_numbers"] >= 0.98, misses
    assert found["kind"] >= 0.97, misses
    assert found["is_offer"] >= 0.97, misses


@pytest.mark.parametrize("name", FILES[1:])
@pytest.mark.parametrize("language", LANGUAGES)
def test_each_language_is_read(language, name):
    rows = [row for row in rows_of(name) if row["lang"] == language]
    assert len(rows) >= 5
    found = shares(scored(rows, WORDS)[0])
    assert found["precision"] >= 0.95
    assert found["f1"] >= 0.9


def test_a_wrong_value_costs_precision_and_recall_and_an_invented_one_precision():
    row = {"title": "", "body": "Two used solar panels, 395 W, £40 each", "asking_price_text": None}
    right = {"kind": "panel", "is_offer": True, "quantity_available": 2, "price_value": 40, "price_currency": "GBP",
             "price_basis": "each", "unit_price": 40, "rated_power_w": 395, "condition": "used"}  # fmt: skip
    assert shares(scored([{**row, "true": right}], WORDS)[0])["f1"] == 1
    wrong, _ = scored([{**row, "true": {**right, "rated_power_w": 300}}], WORDS)
    assert wrong["rated_power_w"] == (0, 1, 1)
    unstated = {name: value for name, value in right.items() if name != "rated_power_w"}
    invented, _ = scored([{**row, "true": unstated}], WORDS)
    assert invented["rated_power_w"] == (0, 1, 0)


def parts(reading):
    return (
        reading.kind, reading.is_offer, reading.quantity_available, reading.price, reading.condition, reading.defects,
        reading.delivery, reading.shipping_cost, dict(reading.panel), dict(reading.inverter),
    )  # fmt: skip


def read(row, change):
    fields = (change(row[name] or "") for name in ("title", "body", "asking_price_text"))
    title, body, price_text = fields
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


ROWS = rows_of("further_adverts.jsonl")


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_more_white_space_moves_no_reading(row):
    first = read(row, str)
    assert parts(read(row, lambda text: text.replace(" ", "   "))) == parts(first)
    assert parts(read(row, lambda text: f"  {text}\t ".replace(". ", ".  "))) == parts(first)


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_small_letters_move_no_reading(row):
    assert parts(read(row, str.lower)) == parts(read(row, str))


SMALL = [row for row in ROWS if "&" not in row["body"]]  # a character reference has no capitals


@pytest.mark.parametrize("row", SMALL, ids=[row["id"] for row in SMALL])
def test_capitals_move_no_reading(row):
    assert parts(read(row, str.upper)) == parts(read(row, str))
