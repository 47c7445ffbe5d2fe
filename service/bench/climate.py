"""How right is the climate table? Its level-ground irradiation against monthly station means, by group.

The workload: a CSV with a row a site and the columns ``lat``, ``lon``, ``elev_m``, ``region``, ``quality``, ``basis``
and ``m01`` to ``m12`` (mean daily global irradiation on level ground by month, kWh/m2, blank where unknown).
"""

import argparse
import csv
import json
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.core.errors import NoClimateError
from service.core.sky.clear_sky import MONTH_DAYS, clear_sky_months
from service.data.climate import ClimateTable, load_climate

Floats = NDArray[np.float64]
Row = Mapping[str, str]

GROUPS: Mapping[str, Callable[[Row], bool]] = {
    "Europe, quality A": lambda row: row["region"] == "Europe" and row["quality"] == "A",
    "Europe, quality A, measured": lambda row: (
        row["region"] == "Europe" and row["quality"] == "A" and row["basis"] == "measured"
    ),
    "Europe, all": lambda row: row["region"] == "Europe",
    "outside Europe, quality B": lambda row: row["region"] == "World" and row["quality"] == "B",
    "outside Europe, all": lambda row: row["region"] == "World",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """Errors of a group of sites in per cent: yearly sums (bias, spread, 90th percentile of size), single months."""

    group: str
    sites: int
    bias_pct: float
    sd_pct: float
    p90_pct: float
    month_p90_pct: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateReport:
    """Scores by group, sites that the table refuses, and the median CPU time of one look-up, ms."""

    scores: tuple[Score, ...]
    refused: tuple[str, ...]
    lookup_ms: float

    def __str__(self) -> str:
        """A plain table."""
        lines = [f"{'group':30}{'sites':>6}{'bias':>7}{'sd':>7}{'p90':>7}{'months p90':>12}   per cent"]
        lines += [
            f"{s.group:30}{s.sites:6d}{s.bias_pct:7.1f}{s.sd_pct:7.1f}{s.p90_pct:7.1f}{s.month_p90_pct:12.1f}"
            for s in self.scores
        ]
        lines.append(f"one look-up: {self.lookup_ms:.1f} ms; refused: {', '.join(self.refused) or 'none'}")
        return "\n".join(lines)


def main(arguments: Sequence[str]) -> int:
    """``bench climate [FILE] [--json]``: FILE is a list of stations, the open ones of the tests by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench climate")
    parser.add_argument("file", nargs="?", type=Path, default=Path("tests/reference/stations_open.csv"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    report = climate_bench(chosen.file)
    print(json.dumps(asdict(report)) if chosen.json else report)
    return 0


def climate_bench(stations_csv: Path) -> ClimateReport:
    """Score the packaged table on the stations of a file.

    Inside 45-56 N, 5-16 E half of the table is a satellite's means: rows that are the same satellite's do not judge it.
    """
    with stations_csv.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    table = load_climate()
    errors: list[tuple[Row, Floats, float]] = []
    refused, took = [], []
    for row in rows:
        begun = time.process_time()
        try:
            modelled = level_ground_months(table, float(row["lat"]), float(row["lon"]), float(row["elev_m"]))
        except NoClimateError:
            refused.append(row["site"])
            continue
        took.append(time.process_time() - begun)
        errors.append((row, *compared(modelled, row)))
    scores = (_score(group, [e[1:] for e in errors if belongs(e[0])]) for group, belongs in GROUPS.items())
    return ClimateReport(
        scores=tuple(score for score in scores if score.sites > 1),
        refused=tuple(refused),
        lookup_ms=float(np.median(took)) * 1000.0,
    )


def level_ground_months(table: ClimateTable, latitude_deg: float, longitude_deg: float, elevation_m: float) -> Floats:
    """Mean daily irradiation on level ground by month, (12,) kWh/m2.

    Raises:
        NoClimateError: the table has no answer there.
    """
    place = table.at(latitude_deg, longitude_deg, elevation_m)
    clear = clear_sky_months(place.sun_days, latitude_deg, np.asarray([elevation_m]), place.linke_turbidity[np.newaxis])
    return np.asarray(clear[0] * place.clear_sky_index, dtype=np.float64)


def compared(modelled: Floats, row: Row) -> tuple[Floats, float]:
    """Relative errors: by month (nan where the row has none), and of the sum over the months it has."""
    measured = np.asarray([float(row[f"m{month:02d}"] or "nan") for month in range(1, 13)])
    days = np.where(np.isfinite(measured), np.asarray(MONTH_DAYS, dtype=np.float64), 0.0)
    yearly = float((modelled * days).sum() / (np.nan_to_num(measured) * days).sum() - 1.0)
    return modelled / measured - 1.0, yearly


def _score(group: str, errors: Iterable[tuple[Floats, float]]) -> Score:
    pairs = list(errors)
    if len(pairs) < 2:
        return Score(group=group, sites=len(pairs), bias_pct=0.0, sd_pct=0.0, p90_pct=0.0, month_p90_pct=0.0)
    months, years = np.asarray([pair[0] for pair in pairs]), np.asarray([pair[1] for pair in pairs])
    return Score(
        group=group,
        sites=len(pairs),
        bias_pct=100.0 * float(years.mean()),
        sd_pct=100.0 * float(years.std(ddof=1)),
        p90_pct=100.0 * float(np.quantile(np.abs(years), 0.9)),
        month_p90_pct=100.0 * float(np.nanquantile(np.abs(months), 0.9)),
    )
