"""What do a map of planes, ten thousand flats and a start cost, beside one year of the library's functions by hand?

The workload: the panels of the request with nothing around them, on their inverter; place and tables at hand. The map
has 6552 planes. Both are timed once more with the house behind the panels, which the functions by hand know nothing
of. Each flat hangs one panel in a plane of its own and has what of it is used at home; so many are timed
as read the clock well, and the figure is for ten thousand. A start is a process of its own until its first appraisal
is answered, beside the same with pvlib imported, and beside a process that loads numpy and the framework and ends. All
of them find their modules compiled and look for no garbage on the way, as a worker that is served.
"""

import os
import resource
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from time import process_time
from typing import Any

import numpy as np

from service.api.answers.question import Question
from service.core.model.place import Plane
from service.core.tilt.home import home_of
from service.core.tilt.near import map_of
from service.core.tilt.stand import Stand, stand_of
from service.core.tilt.sums import Together

FLATS, FLATS_TIMED = 10_000, 400
_STEPS_DEG = (1.0, 5.0)
_NOTHING_AROUND = {"skyline": (), "overhang": None, "side_walls": (), "shade": (), "cover": None}
_START = """
import gc, sys
gc.disable()
sys.path.insert(0, ".")
{library}
from pathlib import Path
from service import app
from service.api.answers.appraisal import appraisal
from service.settings import Settings
made, read = [], app.deps_of
app.deps_of = lambda settings: made.append(read(settings)) or made[-1]  # the tables once, as a worker has them
app.create_app(Settings())
appraisal(Path({file!r}).read_bytes(), made[0])
"""
_FRAMEWORK = "import gc; gc.disable(); import numpy, fastapi"


@dataclass(frozen=True, slots=True, kw_only=True)
class BulkCost:
    """CPU milliseconds, medians over the rounds, each beside that of the functions by hand, and starts in seconds."""

    by_hand_ms: float
    map_ms: float
    flats_ms: float
    map_before_house_ms: float
    flats_before_house_ms: float
    start_s: float
    start_with_library_s: float
    framework_s: float

    @property
    def ratios(self) -> dict[str, float]:
        """Rows of the goals."""
        return {
            "map / functions by hand": self.map_ms / self.by_hand_ms,
            f"{FLATS} flats / functions by hand": self.flats_ms / self.by_hand_ms,
            "the same map before a house": self.map_before_house_ms / self.by_hand_ms,
            "the same flats before houses": self.flats_before_house_ms / self.by_hand_ms,
            "start / start that imports pvlib": self.start_s / self.start_with_library_s,
        }


def bulk_cost(request_file: Path, question: Question, by_hand: Callable[[], float], rounds: int) -> BulkCost:
    """Time all of it, in turns with the functions by hand.

    Args:
        request_file: JSON of the appraisal that a start answers.
        question: the same, completed.
        by_hand: one year by the library's functions.
        rounds: how many rounds medians are taken of; starts are timed once a round, five times at most, and once before
            that uncounted, where what is new is compiled.
    """
    ways: list[Callable[[], object]] = [by_hand]
    for without in (("fixing",), ()):  # without it no house is known of
        around: dict[str, Any] = {**_NOTHING_AROUND, **dict.fromkeys(without)}
        arrays = tuple(replace(array, **around) for array in question.setup.arrays)
        stand, still = stand_of(replace(question.setup, arrays=arrays), question.sky), tuple(a.plane for a in arrays)
        together = Together(stand=stand, home=None, moving=dict.fromkeys(range(len(still)), 0.0), still=still)
        ways += [partial(map_of, together, "usual", _STEPS_DEG), _flats(stand, question)]
    rows = np.median([[_ms(way) for way in ways] for _ in range(rounds)], axis=0)
    codes = [_START.format(library=library, file=str(request_file)) for library in ("", "import pvlib")]
    codes.append(_FRAMEWORK)
    starts = np.median([[_start_s(code) for code in codes] for _ in range(min(rounds, 5) + 1)][1:], axis=0)
    return BulkCost(
        by_hand_ms=float(rows[0]),
        map_ms=float(rows[1]),
        flats_ms=float(rows[2]) * FLATS / FLATS_TIMED,
        map_before_house_ms=float(rows[3]),
        flats_before_house_ms=float(rows[4]) * FLATS / FLATS_TIMED,
        start_s=float(starts[0]),
        start_with_library_s=float(starts[1]),
        framework_s=float(starts[2]),
    )


def _flats(stand: Stand, question: Question) -> Callable[[], object]:
    """One panel in many planes: what each gives and what is used at home, kWh."""
    planes = [Plane(tilt_deg=90.0 * i / FLATS_TIMED, azimuth_deg=137.5 * i % 360.0) for i in range(FLATS_TIMED)]
    rows, most_w = stand.record.daylight.rows, float(stand.output.limit_w)
    home = home_of(question.meter, question.setup, question.sky.calendar, rows, most_w, question.as_of)

    def kwh() -> object:
        found = []
        for dc in stand.dc_blocks(0, planes, stand.nearest()):
            left, used = home.left_and_used_w(stand.ac_w(dc))
            found.append((left.sum(axis=1), used.sum(axis=1)))
        return found

    return kwh


def _ms(way: Callable[[], object]) -> float:
    started = process_time()
    way()
    return 1000.0 * (process_time() - started)


def _start_s(code: str) -> float:
    """CPU of a process; it keeps what it compiles, so that all but the first find it."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    keeping = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run([sys.executable, "-c", code], check=True, env=keeping)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def report(cost: BulkCost) -> str:
    """The figures as a table, ratios first."""
    lines = [f"{name:44}{ratio:10.2f} x" for name, ratio in cost.ratios.items()]
    lines += [
        f"{'map of 6552 planes':44}{cost.map_ms:10.1f} ms",
        f"{f'{FLATS} flats with use at home':44}{cost.flats_ms:10.1f} ms",
        f"{'start until an appraisal is answered':44}{cost.start_s:10.2f} s",
        f"{'numpy and the framework alone':44}{cost.framework_s:10.2f} s",
    ]
    return "\n".join(lines)
