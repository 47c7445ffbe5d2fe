"""How many faults does a log betray, how many are named rightly, and how often is a healthy set accused?

The workload: made-up logs (``logbook_set``) at places that the weights were not learned from, as many of each fault as
``--logs`` says and five times as many healthy ones, of three weeks to a year, in steps of 5 minutes to an hour, each
judged without weather and with hourly weather (an own sensor's, or a station's that sees other clouds). Detected: the
conclusion is ``something_wrong``; named: the true cause is the surest suspect as well. Size: sum of differences to the
healthy twin over its energy.
"""

import argparse
import json
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass

import numpy as np

from service.bench.logbook_faults import FAULTS, PLAIN
from service.bench.logbook_places import JUDGED, climate_at
from service.bench.logbook_set import MadeLog, Wish, made_log
from service.core.logbook.diagnosis import Diagnosis, suspects
from service.core.logbook.diagnosis.diagnose import SOMETHING_WRONG
from service.core.model.cause_weights import CauseWeights
from service.data.log_causes import load_cause_weights

LOGS = 6
HEALTHY_FOR_ONE = 5
SIZES = ((0.0, 0.05), (0.05, 0.10), (0.10, 0.20), (0.20, 9.9))
_DAYS, _STEPS_S = (21, 42, 91, 91, 182), (300, 900, 3600, 3600)
_LONG_DAYS = {"fast_ageing": 365, "shade_grown": 730}
_PLANE_DAYS = 85


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One log: its fault and size, and what was said without and with weather."""

    fault: str | None
    size_share: float
    days: int
    alone: tuple[bool, str | None]
    weather: tuple[bool, str | None]
    plane_error_deg: float | None
    cpu_ms: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LogbookReport:
    """All logs of a run."""

    judged: tuple[Judged, ...]

    def __str__(self) -> str:
        """Tables by fault and by size, false alarms, error of the plane, CPU."""
        lines = [f"{'':28}{'logs':>5}{'alone':>16}{'with weather':>16}", f"{'':33}" + 2 * f"{'found':>8}{'named':>8}"]
        faulty = [one for one in self.judged if one.fault is not None]
        lines += [_line(fault, [one for one in faulty if one.fault == fault]) for fault in (*FAULTS, *PLAIN)]
        faulty = [one for one in faulty if one.fault in FAULTS]  # the sizes are of causes that are weighed
        for low, high in SIZES:
            name = f"{100 * low:.0f} to {100 * high:.0f} %" if high < 1 else f"{100 * low:.0f} % and more"
            lines.append(_line(name, [one for one in faulty if low <= one.size_share < high]))
        lines.append(_line("all of 10 % and more", [one for one in faulty if one.size_share >= 0.10]))
        healthy = [one for one in self.judged if one.fault is None]
        alone, weather = (sum(getattr(one, kind)[0] for one in healthy) for kind in ("alone", "weather"))
        lines.append(f"false alarms of {len(healthy)} healthy logs: {alone} alone, {weather} with weather")
        errors = [one.plane_error_deg for one in self.judged if one.plane_error_deg is not None]
        if errors:
            lines.append(
                f"tilt from three months of hours: median error {np.median(errors):.1f} deg ({len(errors)} logs)"
            )
        lines.append(f"one log alone: {np.median([one.cpu_ms for one in self.judged]):.0f} ms CPU")
        return "\n".join(lines)


def _line(name: str, logs: Sequence[Judged]) -> str:
    if not logs:
        return f"{name:28}{0:5d}"
    cells = ""
    for kind in ("alone", "weather"):
        found = [getattr(one, kind)[0] for one in logs]
        named = [hit and getattr(one, kind)[1] == one.fault for hit, one in zip(found, logs, strict=True)]
        cells += f"{np.mean(found):8.2f}{np.mean(named):8.2f}"
    return f"{name:28}{len(logs):5d}{cells}"


def main(arguments: Sequence[str]) -> int:
    """``bench logbook [--logs N] [--seed N] [--json]``."""
    parser = argparse.ArgumentParser(prog="python -m service bench logbook")
    parser.add_argument("--logs", type=int, default=LOGS, help="logs of each fault")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    report = logbook_bench(chosen.logs, chosen.seed)
    print(json.dumps(asdict(report)) if chosen.json else report)
    return 0


def logbook_bench(logs: int = LOGS, seed: int = 1) -> LogbookReport:
    """Make and judge so many logs of each fault."""
    weights = load_cause_weights()
    wanted = [fault for fault in (*FAULTS, *PLAIN) for _ in range(logs)] + [None] * (HEALTHY_FOR_ONE * logs)
    return LogbookReport(judged=tuple(_judged(fault, seed, k, weights) for k, fault in enumerate(wanted)))


def _judged(fault: str | None, seed: int, number: int, weights: CauseWeights) -> Judged:
    rng = np.random.default_rng([seed, number])
    place = list(JUDGED)[int(rng.integers(0, len(JUDGED)))]
    climate, time_zone = climate_at(*JUDGED[place])
    days = _LONG_DAYS.get(fault or "", int(rng.choice(_DAYS)))
    step_s = 3600 if days > 182 else int(rng.choice(_STEPS_S))
    kind = str(rng.choice(["own", "nearby"]))
    log = made_log(rng, climate, time_zone, place, Wish(fault=fault, days=days, step_s=step_s, weather=kind))
    begun = time.process_time()
    alone = suspects(log.series, log.setup, log.climate, weights)
    took = time.process_time() - begun
    weather = suspects(log.series, log.setup, log.climate, weights, log.weather)
    return Judged(
        fault=fault, size_share=log.disturbance_share, days=days, alone=_said(alone), weather=_said(weather),
        plane_error_deg=_plane_error(log, alone), cpu_ms=1000.0 * took,
    )  # fmt: skip


def _said(diagnosis: Diagnosis) -> tuple[bool, str | None]:
    first = diagnosis.suspects[0].code if diagnosis.suspects else None
    return diagnosis.conclusion == SOMETHING_WRONG, first


def _plane_error(log: MadeLog, diagnosis: Diagnosis) -> float | None:
    """How far the tilt that was found is off, of logs of three months and more that are healthy or turned."""
    if log.days < _PLANE_DAYS or log.fault not in (None, "plane_differs") or diagnosis.plane is None:
        return None
    stated = log.setup.arrays[0].plane.tilt_deg
    return abs(stated + diagnosis.plane.tilt_by_deg - log.true_planes[0].tilt_deg)
