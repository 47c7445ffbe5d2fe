"""How are the weights of a diagnosis found? Made-up logs of some places, a softmax of named quantities, one table.

``python -m service.bench.logbook_training table`` makes the table in use from nothing: 2100 logs of seed 2026 and those
in steps of a day among 800 of seed 2027, each with weather, their evidence, and from it the weights of four cases
(hours or days, without and with weather), written to ``service/data/log_causes/weights.csv``. It takes some 20 minutes
of one processor. ``samples`` makes a part of the logs and keeps their evidence in a file, ``fit FILE ...`` takes such
files. Only the quantities of ``evidence`` go in, each by its name.
"""

import argparse
import csv
import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from service.bench.logbook_faults import FAULTS
from service.bench.logbook_places import JUDGED, LEARNED, climate_at
from service.bench.logbook_set import Wish, made_log
from service.core.logbook.diagnosis.evidence import evidence_of
from service.core.logbook.diagnosis.weighing import NOTHING_UNUSUAL, case_of, spreads_of, weighed
from service.core.model.cause_weights import CaseWeights
from service.core.model.hours import Floats, Ints

_DAYS = ((21, 0.2), (28, 0.1), (42, 0.2), (91, 0.27), (182, 0.08), (365, 0.15))
_STEPS = ((300, 0.2), (900, 0.37), (3600, 0.35), (86_400, 0.08))
_HEALTHY_SHARE = 0.36
TABLE = Path("service/data/log_causes/weights.csv")
CAUSES = (NOTHING_UNUSUAL, *FAULTS)
PENALTY = 8.0
SEED, COUNT, DAILY_SEED, DAILY_COUNT = 2026, 2100, 2027, 800  # of the table in use
FALSE_ALARMS, PARTS = 0.06, 5  # of the healthy logs at places that the weights did not see
LEFT_OUT = (
    "limit_w",
    "w_limit_w",
    "clock_ahead_h",
    "w_clock_ahead_h",
    "w_log_days",
    "w_log_clear_days",
    "calm_lost_share",
    "sunny_lost_log",
    "top_lost_share",
    "w_top_lost_share",
    "w_known_days",
)  # told to people, not weighed
_HOUR_S = 3600
_NOT_BY_DAYS = ("grid_trips", "wet_trips", "clock_shift", "undeclared_shade", "heat_derating")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """The evidence of one made-up log, and its truth."""

    named: Mapping[str, float]
    fault: str | None
    disturbance_share: float
    days: int
    step_s: int
    weather: str
    place: str
    plane_error_deg: tuple[float, float] | None


def wish(rng: np.random.Generator) -> Wish:
    """What a log may look like."""
    names = (None, *FAULTS)
    chances = [_HEALTHY_SHARE] + [(1 - _HEALTHY_SHARE) / len(FAULTS)] * len(FAULTS)
    fault = names[int(rng.choice(len(names), p=chances))]
    days = int(rng.choice([d for d, _ in _DAYS], p=[p for _, p in _DAYS]))
    step_s = int(rng.choice([s for s, _ in _STEPS], p=[p for _, p in _STEPS]))
    if fault == "fast_ageing":
        days = 365
    if step_s == 86_400 and fault in _NOT_BY_DAYS:
        step_s = 3600
    if days == 365 and step_s == 300:
        step_s = 900
    return Wish(fault=fault, days=days, step_s=step_s, weather=str(rng.choice(["own", "nearby"])))


def sample(rng: np.random.Generator, places: Mapping[str, tuple[float, float]], wanted: Wish) -> Sample:
    """Make a log and look at it."""
    place = list(places)[int(rng.integers(0, len(places)))]
    climate, time_zone = climate_at(*places[place])
    log = made_log(rng, climate, time_zone, place, wanted)
    found = evidence_of(log.series, log.setup, log.climate, log.weather)
    error = None
    if found.plane is not None:
        true, stated = log.true_planes[0], log.setup.arrays[0].plane
        turn = stated.azimuth_deg + found.plane.azimuth_by_deg - true.azimuth_deg
        error = (stated.tilt_deg + found.plane.tilt_by_deg - true.tilt_deg, (turn + 180.0) % 360.0 - 180.0)
    return Sample(
        named=found.named, fault=log.fault, disturbance_share=log.disturbance_share, days=log.days,
        step_s=log.series.step_s, weather=wanted.weather, place=place, plane_error_deg=error,
    )  # fmt: skip


def samples(
    count: int, seed: int, places: Mapping[str, tuple[float, float]], *, daily: bool = False, first: int = 0
) -> list[Sample]:  # fmt: skip
    """So many from the number ``first`` on, each from a seed of its own; ``daily``: all in steps of a day.

    Logs of days are few among the others.
    """
    made = []
    for k in range(first, first + count):
        rng = np.random.default_rng([seed, k])
        wanted = wish(rng)
        if daily and wanted.fault not in _NOT_BY_DAYS:
            wanted = replace(wanted, step_s=86_400)
        if not daily or wanted.step_s == 86_400:
            made.append(sample(rng, places, wanted))
    return made


def kept(file: Path) -> list[Sample]:
    """Samples that were written to a file."""
    return [Sample(**row) for row in json.loads(file.read_text(encoding="utf-8"))]


def fitted_case(made: Sequence[Sample], *, by_the_hour: bool, with_weather: bool) -> CaseWeights:
    """The softmax of one case: least cross-entropy, a penalty on the weights.

    The alarm is set where so many healthy logs are accused by weights that were fitted without their places, part by
    part: each place has its own air, which the climate's turbidity does not tell.
    """
    own = [one for one in made if (one.step_s <= _HOUR_S) == by_the_hour]
    named = [weighed(one.named) for one in own]
    truth = np.array([CAUSES.index(one.fault or NOTHING_UNUSUAL) for one in own])
    names = tuple(
        sorted({name for one in named for name in one if with_weather or not name.startswith("w_")} - set(LEFT_OUT))
    )
    places = sorted({one.place for one in own})
    part = np.array([places.index(one.place) % PARTS for one in own])
    accused: list[float] = []
    for left_out in range(PARTS):
        kept_in = np.flatnonzero(part != left_out)
        case = _weights(names, [named[k] for k in kept_in], truth[kept_in])
        healthy = [named[k] for k in np.flatnonzero((part == left_out) & (truth == 0))]
        accused += [1.0 - float(shares[0]) for shares in _shares(healthy, case)]
    threshold = float(np.clip(np.quantile(accused, 1.0 - FALSE_ALARMS), 0.3, 0.9)) if accused else 0.5
    return replace(_weights(names, named, truth), alarm_from_share=threshold)


def _weights(names: tuple[str, ...], named: Sequence[Mapping[str, float]], truth: Ints) -> CaseWeights:
    usual, spread = _usual(names, named)
    blank = CaseWeights(
        quantities=names, usual=usual, spread=spread, weight=np.zeros((len(names), len(CAUSES))),
        constant=np.zeros(len(CAUSES)), alarm_from_share=0.5,
    )  # fmt: skip
    weight, constant = _softmax(np.array([spreads_of(one, blank) for one in named]), truth)
    return replace(blank, weight=weight, constant=constant)


def _shares(named: Sequence[Mapping[str, float]], case: CaseWeights) -> list[Floats]:
    """Sureness of each cause for some logs."""
    scores = [case.constant + spreads_of(one, case) @ case.weight for one in named]
    powers = [np.exp(score - score.max()) for score in scores]
    return [np.asarray(power / power.sum()) for power in powers]


def _usual(names: Sequence[str], named: Sequence[Mapping[str, float]]) -> tuple[Floats, Floats]:
    table = np.array([[one.get(name, np.nan) for name in names] for one in named])
    middle = np.nanmedian(table, axis=0)
    low, high = np.nanquantile(table, [0.02, 0.98], axis=0)
    spread = np.nanstd(np.clip(table, low, high), axis=0)
    return middle, np.where(spread > 1e-6, spread, 1.0)


def _softmax(inputs: Floats, truth: Ints) -> tuple[Floats, Floats]:
    count, quantities = inputs.shape
    causes = len(CAUSES)
    hit = np.zeros((count, causes))
    hit[np.arange(count), truth] = 1.0

    def loss(flat: Floats) -> tuple[float, Floats]:
        weight, constant = flat[:-causes].reshape(quantities, causes), flat[-causes:]
        score = inputs @ weight + constant
        score = score - score.max(axis=1, keepdims=True)
        log_share = score - np.log(np.exp(score).sum(axis=1, keepdims=True))
        off = np.exp(log_share) - hit
        value = -float((log_share * hit).sum()) + PENALTY * float((weight**2).sum())
        return value, np.concatenate([(inputs.T @ off + 2 * PENALTY * weight).ravel(), off.sum(axis=0)])

    found = minimize(
        loss, np.zeros(quantities * causes + causes), jac=True, method="L-BFGS-B", options={"maxiter": 400}
    )
    return found.x[:-causes].reshape(quantities, causes), found.x[-causes:]


def written(cases: Mapping[str, CaseWeights], to: Path) -> None:
    """Write the table."""
    with to.open("w", encoding="utf-8", newline="") as lines:
        rows = csv.writer(lines, lineterminator="\n")
        rows.writerow(("case", "quantity", "usual", "spread", *CAUSES))
        for name, case in cases.items():
            rows.writerow((name, "constant", f"{case.alarm_from_share:.3f}", 1, *(f"{v:.3f}" for v in case.constant)))
            for k, quantity in enumerate(case.quantities):
                values = (f"{v:.3f}" for v in case.weight[k])
                rows.writerow((name, quantity, f"{case.usual[k]:.4g}", f"{case.spread[k]:.4g}", *values))


def fit(made: Sequence[Sample]) -> dict[str, CaseWeights]:
    """The weights of all cases."""
    return {
        case_of(by_the_hour=hours, with_weather=weather): fitted_case(made, by_the_hour=hours, with_weather=weather)
        for hours in (True, False)
        for weather in (False, True)
    }


def main(arguments: Sequence[str]) -> int:
    """See the module."""
    parser = argparse.ArgumentParser(prog="python -m service.bench.logbook_training")
    commands = parser.add_subparsers(dest="command", required=True)
    making = commands.add_parser("samples")
    making.add_argument("--count", type=int, default=2000)
    making.add_argument("--seed", type=int, default=SEED)
    making.add_argument("--first", type=int, default=0, help="number of the first one, to make them in parts")
    making.add_argument("--judged", action="store_true", help="at places that are not learned from")
    making.add_argument("--daily", action="store_true", help="in steps of a day")
    making.add_argument("--out", type=Path, required=True)
    whole = commands.add_parser("table")
    whole.add_argument("--out", type=Path, default=TABLE)
    fitting = commands.add_parser("fit")
    fitting.add_argument("files", type=Path, nargs="+")
    fitting.add_argument("--out", type=Path, default=TABLE)
    chosen = parser.parse_args(arguments)
    if chosen.command == "table":
        written(
            fit([*samples(COUNT, SEED, LEARNED), *samples(DAILY_COUNT, DAILY_SEED, LEARNED, daily=True)]), chosen.out
        )
    elif chosen.command == "samples":
        made = samples(
            chosen.count, chosen.seed, JUDGED if chosen.judged else LEARNED, daily=chosen.daily, first=chosen.first
        )
        chosen.out.write_text(json.dumps([asdict(one) for one in made]), encoding="utf-8")
    else:
        written(fit([one for file in chosen.files for one in kept(file)]), chosen.out)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
