"""POST /v1/logbook/review as a table: names in other languages, blocks, odd lines."""

import json
from datetime import UTC, datetime, timedelta
from math import pi, sin
from typing import Any

import pytest

from tests.http.client import SMALLEST, ask, post

PATH = "/v1/logbook/review"
FIRST = datetime(2025, 6, 1, tzinfo=UTC)
ROWS: list[tuple[str, float]] = [
    ((FIRST + timedelta(hours=at)).isoformat(), round(260.0 * max(sin((at % 24 - 3.5) / 17.0 * pi), 0.0), 1))
    for at in range(30 * 24)
]


def said(head: str, lines: list[str], ending: str = "\n") -> dict[str, Any]:
    """The answer to a table."""
    body = ending.join([f"# {json.dumps(SMALLEST)}", head, *lines, ""]).encode()
    answer = ask("POST", PATH, content=body, headers={"content-type": "text/csv"})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["logbook"]
    return found


@pytest.mark.parametrize(
    ("head", "comma"),
    [
        ("Beginn;Energie (Wh)", True),
        ("Beginn;Ertrag Wh", False),
        ("START;ENERGY_WH", False),
        ("Début;Énergie [Wh]", True),
        ("begin;opbrengst_wh", True),
    ],
)
def test_names_of_columns_are_read_in_four_languages(head: str, comma: bool) -> None:
    lines = [f"{at};{value}".replace(".", ",") if comma else f"{at};{value}" for at, value in ROWS]
    readings = {"kind": "interval", "unit": "wh", "stamp": "start", "rows": ROWS}
    assert said(head, lines) == post(PATH, {**SMALLEST, "readings": readings}).json()["logbook"]


def test_a_date_may_stand_apart_from_its_time() -> None:
    lines = [f"{at[8:10]}.{at[5:7]}.{at[:4]};{at[11:16]};{value}" for at, value in ROWS]
    together = [f"{at[:10]} {at[11:16]};{value}" for at, value in ROWS]
    assert said("Datum;Uhrzeit;Energie (Wh)", lines) == said("Zeit;Energie (Wh)", together)
    days = [f"2025-06-{1 + k:02d};1.5" for k in range(28)]
    assert said("Datum;Energie (kWh)", days)["logged_kwh"] == pytest.approx(42.0)


def test_power_in_kw_is_power() -> None:
    kilo = [f"{at};{value / 1000:.4f}" for at, value in ROWS]
    plain = [f"{at};{value}" for at, value in ROWS]
    assert said("Zeit;Leistung (kW)", kilo)["logged_kwh"] == said("Zeit;Leistung (W)", plain)["logged_kwh"]


@pytest.mark.parametrize("odd", ["quotes", "spaces", "empty_lines", "returns", "more_fields"])
def test_however_the_lines_look_the_answer_is_that_of_plain_ones(odd: str) -> None:
    plain = said("start;energy_wh", [f"{at};{value}" for at, value in ROWS])
    lines = {
        "quotes": [f'"{at}";"{value}"' for at, value in ROWS],
        "spaces": [f"  {at} ;  {value} " for at, value in ROWS],
        "empty_lines": [f"{at};{value}\n" for at, value in ROWS],
        "returns": [f"{at};{value}" for at, value in ROWS],
        "more_fields": [f"{at};{value};7" for at, value in ROWS],
    }[odd]
    assert said("start;energy_wh", lines, "\r\n" if odd == "returns" else "\n") == plain


@pytest.mark.parametrize(("value", "plain"), [("1.001,5", "1001.5"), ("1,001.5", "1001.5"), ("-1.001,5", "-1001.5")])
def test_thousands_that_are_marked_off_are_read(value: str, plain: str) -> None:
    def table(text: str) -> list[str]:
        return [f"{at};{text if k == 40 else watts}" for k, (at, watts) in enumerate(ROWS[: 14 * 24])]

    assert said("start;power_w", table(value)) == said("start;power_w", table(plain))


@pytest.mark.parametrize(
    ("value", "line", "code"), [("a", 7, "wrong_form"), ("inf", 7, "wrong_form"), ("1e12", None, "out_of_range")]
)
def test_a_value_that_is_none_is_told_with_its_place(value: str, line: int | None, code: str) -> None:
    lines = [f"{at};{value if k == 4 else watts}" for k, (at, watts) in enumerate(ROWS[:48])]
    body = "\n".join([f"# {json.dumps(SMALLEST)}", "start;energy_wh", *lines]).encode()
    answer = ask("POST", PATH, content=body, headers={"content-type": "text/csv"})
    assert answer.status_code == 422
    (mistake,) = answer.json()["errors"]
    assert mistake["code"] == code
    assert (f"line {line} " in mistake["problem"]) if line else mistake["pointer"] == "/readings/rows/4/1"
