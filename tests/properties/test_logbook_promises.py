"""However the rows of a log are written, they say the same of the set."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta, timezone
from functools import cache
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.http.client import post

SET: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3, "time_zone": "Europe/Berlin"},
    "arrays": [
        {"panel": {"rated_power_w": 410}, "mount": "ground_frame", "plane": {"tilt_deg": 35, "azimuth_deg": 180}}
    ],
    "inverter": {"ac_power_w": 400, "set_limit_w": 400},
    "as_of": "2026-11-25",
}
FIRST = datetime(2025, 5, 10, tzinfo=UTC)
DAYS = 28
Row = tuple[datetime, float]


@cache
def log(seed: int) -> tuple[Row, ...]:
    """Four weeks of half-hours under a changing sky; seeds apart by 7 are the same sky at another level."""
    rng = np.random.default_rng(seed % 7)
    level = (1.0, 0.9, 0.45)[seed // 7 % 3]
    found = []
    for day in range(DAYS):
        sky = rng.choice([1.0, 0.85, 0.5, 0.25])
        for half in range(48):
            sun = max(np.sin((half / 2 - 4.2 - 0.3) / 14.0 * np.pi), 0.0) if half / 2 > 4.2 else 0.0
            watts = level * 330.0 * sun**1.2 * sky * (1.0 if sky > 0.9 else rng.uniform(0.6, 1.2))
            found.append((FIRST + timedelta(days=day, minutes=30 * half), round(float(watts) / 2, 2)))
    return tuple(found)


def readings(rows: list[Row], unit: str = "wh", offset_h: int = 0) -> dict[str, Any]:
    """As a request holds them."""
    zone, by = timezone(timedelta(hours=offset_h)), {"wh": 1.0, "kwh": 0.001}[unit]
    told = [[at.astimezone(zone).isoformat(), value * by] for at, value in rows]
    return {"kind": "interval", "unit": unit, "stamp": "start", "rows": told}


@cache
def as_it_is(seed: int) -> dict[str, Any]:
    """What is said of a log as it was written."""
    return review(readings(list(log(seed))))


def review(told: dict[str, Any]) -> dict[str, Any]:
    answer = post("/v1/logbook/review", {**SET, "readings": told})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["logbook"]
    return found


def same(found: dict[str, Any], known: dict[str, Any]) -> None:
    """The same conclusion for the same reason out of the same figures; findings tell of the rows and may differ."""
    for name in ("conclusion", "logged_kwh", "expected_kwh", "ratio", "suspects", "gaps", "days", "projected_year_kwh"):
        assert (
            found[name] == pytest.approx(known[name], abs=0.02) if name == "logged_kwh" else found[name] == known[name]
        )


SEEDS = st.integers(0, 20)


@given(seed=SEEDS, order=st.randoms(use_true_random=False))
@settings(max_examples=4, deadline=None)
def test_the_order_of_rows_does_not_matter(seed: int, order: Any) -> None:
    rows = list(log(seed))
    order.shuffle(rows)
    same(review(readings(rows)), as_it_is(seed))


@given(seed=SEEDS, cut=st.integers(3 * 48, (DAYS - 3) * 48), again=st.integers(0, 96))
@settings(max_examples=4, deadline=None)
def test_two_exports_put_together_are_the_log_and_their_overlap_counts_once(seed: int, cut: int, again: int) -> None:
    rows = list(log(seed))
    same(review(readings(rows[cut - again :] + rows[:cut])), as_it_is(seed))
    parts = [review(readings(part))["logged_kwh"] for part in (rows[:cut], rows[cut:])]
    assert sum(parts) == pytest.approx(as_it_is(seed)["logged_kwh"], abs=0.02)


@given(seed=SEEDS, offset_h=st.integers(-11, 12))
@settings(max_examples=4, deadline=None)
def test_units_and_offsets_do_not_matter(seed: int, offset_h: int) -> None:
    rows = list(log(seed))
    found = review(readings(rows, "kwh", offset_h))
    known = as_it_is(seed)
    assert (found["conclusion"], found["ratio"]) == (known["conclusion"], pytest.approx(known["ratio"], abs=1e-4))


@given(seed=SEEDS, night=st.integers(1, DAYS - 2), hours=st.integers(1, 4))
@settings(max_examples=4, deadline=None)
def test_a_gap_by_night_does_not_matter(seed: int, night: int, hours: int) -> None:
    begin = FIRST + timedelta(days=night, hours=22)
    rows = [row for row in log(seed) if not begin <= row[0] < begin + timedelta(hours=hours)]
    found, known = review(readings(rows)), as_it_is(seed)
    assert (found["conclusion"], found["ratio"], found["gaps"]) == (known["conclusion"], known["ratio"], known["gaps"])


@given(seed=SEEDS, resolution=st.sampled_from([1.0, 10.0]), resets=st.lists(st.integers(1, DAYS - 1), max_size=3))
@settings(max_examples=4, deadline=None)
def test_a_counter_with_resets_holds_the_same_energy_as_its_intervals(
    seed: int, resolution: float, resets: list[int]
) -> None:
    rows = list(log(seed))
    sums = 5000.0 + np.concatenate([[0.0], np.cumsum([value for _, value in rows])])
    times = [at for at, _ in rows] + [rows[-1][0] + timedelta(minutes=30)]
    for day in sorted(set(resets)):
        at = day * 48 + 4
        sums[at:] -= sums[at]
    counter = [[at.isoformat(), float(np.floor(value / resolution) * resolution)] for at, value in
               zip(times, sums, strict=True)]  # fmt: skip
    found = review({"kind": "counter", "unit": "wh", "rows": counter})
    assert found["logged_kwh"] == pytest.approx(as_it_is(seed)["logged_kwh"], abs=0.05)
    assert found["ratio"] == pytest.approx(as_it_is(seed)["ratio"], abs=0.005)


MOVED: list[Callable[[list[Row]], list[Row]]] = [
    lambda rows: [row for row in rows if row[1] > 0 or row[0].hour == 12],  # rows of nought left out
    lambda rows: [*rows, *rows[100:200]],
]


@pytest.mark.parametrize("moved", MOVED, ids=["without nights", "with doubles"])
@pytest.mark.parametrize("seed", [0, 7, 14])
def test_nights_left_out_and_rows_sent_twice_do_not_matter(seed: int, moved: Callable[[list[Row]], list[Row]]) -> None:
    found, known = review(readings(moved(list(log(seed))))), as_it_is(seed)
    assert (found["conclusion"], found["logged_kwh"]) == (known["conclusion"], known["logged_kwh"])
