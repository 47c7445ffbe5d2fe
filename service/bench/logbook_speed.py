"""How long does the review of a year of 5-minute readings take, and how much memory?

The workload: 105,120 rows of power of a balcony set under a made-up sky, as JSON and as a table, from the bytes of the
body to those of the answer, after one review of another log that fills the caches. CPU of this process alone; the peak
is that of what Python allocates.
"""

import argparse
import json
import time
import tracemalloc
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from service.api.answers.logbook import logbook_review, logbook_review_csv
from service.api.render.json import as_json
from service.app import deps_of
from service.settings import Settings

STEP_MINUTES, ROWS, REPEATS = 5, 105_120, 5
SET: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
    "arrays": [
        {"panel": {"rated_power_w": 440}, "mount": "hung_on_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 150}}
    ],
    "inverter": {"ac_power_w": 800},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Speed:
    """One form of the log: its bytes, the median and least CPU time, the peak of memory."""

    form: str
    body_bytes: int
    cpu_ms: float
    least_cpu_ms: float
    peak_mib: float

    def __str__(self) -> str:
        """One line."""
        return (
            f"{self.form:5} {self.body_bytes / 1e6:5.1f} MB  CPU {self.cpu_ms:5.0f} ms (least {self.least_cpu_ms:.0f})"
            f"  peak {self.peak_mib:.0f} MiB"
        )


def made_rows(count: int = ROWS, seed: int = 1) -> list[list[Any]]:
    """Power of a year in steps of five minutes under a made-up sky, W."""
    rng = np.random.default_rng(seed)
    at = STEP_MINUTES * np.arange(count) / 60.0
    day, hour = (at // 24).astype(np.int64), at % 24
    length = 12.0 - 4.5 * np.cos((day + 10) / 365 * 2 * np.pi)
    sun = np.maximum(np.sin((hour - (11.2 - length / 2)) / length * np.pi), 0.0)
    sun[np.abs(hour - 11.2) > length / 2] = 0.0
    sky = rng.choice([1.0, 0.9, 0.5, 0.25], size=int(day[-1]) + 1)[day] * rng.uniform(0.9, 1.0, count)
    first = datetime(2025, 1, 1, tzinfo=UTC)
    power = np.round(330.0 * sun * sky, 1)
    return [
        [(first + timedelta(minutes=STEP_MINUTES * at)).isoformat(), float(watts)] for at, watts in enumerate(power)
    ]


def measured(repeats: int = REPEATS, count: int = ROWS) -> tuple[Speed, ...]:
    """Both forms."""
    deps = deps_of(Settings())
    rows = made_rows(count)
    table = "\n".join(["# " + json.dumps(SET), "start;power_w", *(f"{at};{watts}" for at, watts in rows)]).encode()
    bodies = {
        "JSON": (json.dumps(request_of(rows)).encode(), logbook_review),
        "table": (table, logbook_review_csv),
    }
    logbook_review(json.dumps(request_of(made_rows(3000, 2))).encode(), deps)
    found = []
    for form, (body, review) in bodies.items():

        def once(review: Callable[..., Any] = review, body: bytes = body) -> bytes:
            return as_json(review(body, deps))

        times = []
        for _ in range(repeats):
            begun = time.process_time()
            once()
            times.append(1000.0 * (time.process_time() - begun))
        tracemalloc.start()
        once()
        peak = tracemalloc.get_traced_memory()[1] / 2**20
        tracemalloc.stop()
        found.append(
            Speed(
                form=form, body_bytes=len(body), cpu_ms=float(np.median(times)), least_cpu_ms=min(times), peak_mib=peak
            )
        )  # fmt: skip
    return tuple(found)


def request_of(rows: list[list[Any]]) -> dict[str, Any]:
    """The request with these rows."""
    return {**SET, "readings": {"kind": "power", "unit": "w", "stamp": "start", "rows": rows}}


def main(arguments: Sequence[str]) -> int:
    """Print the table, or JSON."""
    parser = argparse.ArgumentParser(prog="bench logbook_speed", description=__doc__)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--repeats", type=int, default=REPEATS)
    chosen = parser.parse_args(arguments)
    found = measured(chosen.repeats)
    print(json.dumps([asdict(one) for one in found]) if chosen.json else "\n".join(map(str, found)))
    return 0
