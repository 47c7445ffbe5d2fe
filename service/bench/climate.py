"""How right is the climate table? Its level-ground irradiation against monthly station means, by group and by month.

The workload: a CSV with a row a site and the columns ``lat``, ``lon``, ``elev_m``, ``country``, ``region``,
``quality``, ``basis``, ``period``, ``source_licence`` and ``m01`` to ``m12`` (mean daily global irradiation on level
ground by month, kWh/m2, blank where unknown). Inside 45-56 N, 5-16 E half of the table is a satellite's means: rows
that are the same satellite's do not judge it.
"""

import argparse
import json
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.bench.climate_sites import Row, Site, compared, kinds_of, level_ground_months, sites_of
from service.data.builders.climate.cloudless_places import Judged, cloudless_sd_of
from service.data.builders.climate.cold_months import STATIONS
from service.data.climate import load_climate

__all__ = ["ClimateReport", "Score", "climate_bench", "compared", "level_ground_months", "main"]

Floats = NDArray[np.float64]

GROUPS: Mapping[str, Callable[[Row], bool]] = {
    "Europe, quality A": lambda row: row["region"] == "Europe" and row["quality"] == "A",
    "Europe, quality A, measured": lambda row: (
        row["region"] == "Europe" and row["quality"] == "A" and row["basis"] == "measured"
    ),
    "Europe, all": lambda row: row["region"] == "Europe",
    "outside Europe, quality B": lambda row: row["region"] == "World" and row["quality"] == "B",
    "outside Europe, all": lambda row: row["region"] == "World",
}
_MONTHS_OF = ("Europe, quality A", "Europe, quality A, measured", "outside Europe, all")


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """Errors of a group of sites in per cent: yearly sums (bias, spread, 90th percentile of size), single months.

    ``left_out``: bias, spread, 90th percentile and months' one with the site's own region left out of what was learned.
    ``held_pct``: sites whose measured year lies between the ends of the table's light, as it is and left out; 80 are
    wanted. ``month_bias_pct``: (12,), January first; null where no site has the month.
    """

    group: str
    sites: int
    bias_pct: float
    sd_pct: float
    p90_pct: float
    month_p90_pct: float
    left_out_pct: tuple[float, float, float, float]
    held_pct: float
    left_out_held_pct: float
    month_bias_pct: tuple[float | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateReport:
    """Scores by group, the table's region and climate; sites that it refuses; median CPU time of a look-up, ms.

    ``cloudless_sd``: the doubt of a sky that hardly ever has clouds as learned on these sites, and the least and most
    with one of their regions left out; null where none is of that kind.
    """

    scores: tuple[Score, ...]
    by_region: tuple[Score, ...]
    by_climate: tuple[Score, ...]
    cloudless_sd: tuple[float | None, float | None, float | None]
    refused: tuple[str, ...]
    lookup_ms: float

    def __str__(self) -> str:
        """A plain table."""
        lines = []
        for title, scores in (("group", self.scores), ("region", self.by_region), ("climate", self.by_climate)):
            lines.append(f"{title:29}{'sites':>6}{'bias':>6}{'sd':>5}{'p90':>6}{'months p90':>11}")
            lines[-1] += f" |{'left out: the same':>25} | held, left out (per cent; 80 wanted)"
            lines += [_line(score) for score in scores]
        lines.append(f"{'bias by month':29}" + "".join(f"{month:5d}" for month in range(1, 13)))
        lines += [
            f"{score.group:29}"
            + "".join(f"{bias:5.0f}" if bias is not None else "    -" for bias in score.month_bias_pct)
            for score in self.scores + self.by_region + self.by_climate
            if score.group in _MONTHS_OF or score not in self.scores
        ]
        known = [f"{sd:.3f}" if sd is not None else "-" for sd in self.cloudless_sd]
        lines.append(f"doubt of a cloudless sky: {known[0]}; regions left out {known[1]} to {known[2]}")
        lines.append(f"one look-up: {self.lookup_ms:.1f} ms; refused: {', '.join(self.refused) or 'none'}")
        return "\n".join(lines)


def main(arguments: Sequence[str]) -> int:
    """``bench climate [FILE] [--json]``: FILE is a list of stations, the open ones of the tests by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench climate")
    parser.add_argument("file", nargs="?", type=Path, default=STATIONS)
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    report = climate_bench(chosen.file)
    print(json.dumps(asdict(report)) if chosen.json else report)
    return 0


def climate_bench(stations_csv: Path) -> ClimateReport:
    """Score the packaged table on the stations of a file."""
    table = load_climate()
    sites, refused = sites_of(stations_csv, table)
    took = []
    for site in sites:
        begun = time.process_time()
        table.at(float(site.row["lat"]), float(site.row["lon"]), float(site.row["elev_m"]))
        took.append(time.process_time() - begun)
    groups = {name: _of_row(of) for name, of in GROUPS.items()}
    return ClimateReport(
        scores=_scores(groups, sites),
        by_region=_scores(kinds_of(sites, lambda site: site.region), sites),
        by_climate=_scores(kinds_of(sites, lambda site: site.climate), sites),
        cloudless_sd=_cloudless_sd([site.judged for site in sites]),
        refused=tuple(refused),
        lookup_ms=float(np.median(took)) * 1000.0,
    )


def _cloudless_sd(judged: Sequence[Judged]) -> tuple[float | None, float | None, float | None]:
    """By all sites, and the least and most with a region of such sites left out."""
    regions = sorted({site.region for site in judged if site.share > 0.0})
    left_out = [sd for region in regions if (sd := cloudless_sd_of(judged, region)) is not None]
    return cloudless_sd_of(judged), min(left_out, default=None), max(left_out, default=None)


def _of_row(belongs: Callable[[Row], bool]) -> Callable[[Site], bool]:
    return lambda site: belongs(site.row)


def _scores(groups: Mapping[str, Callable[[Site], bool]], sites: Sequence[Site]) -> tuple[Score, ...]:
    parts = ((name, [site for site in sites if belongs(site)]) for name, belongs in groups.items())
    return tuple(_score(name, part) for name, part in parts if len(part) > 1)


def _score(group: str, sites: Sequence[Site]) -> Score:
    months = np.asarray([site.months for site in sites])
    known = np.isfinite(months).any(axis=0)
    as_is = _of_errors(np.asarray([site.year for site in sites]), months)
    left_out = _of_errors(
        np.asarray([site.left_out_year for site in sites]), np.asarray([site.left_out_months for site in sites])
    )
    return Score(
        group=group,
        sites=len(sites),
        bias_pct=as_is[0],
        sd_pct=as_is[1],
        p90_pct=as_is[2],
        month_p90_pct=as_is[3],
        left_out_pct=left_out,
        held_pct=100.0 * float(np.mean([site.held for site in sites])),
        left_out_held_pct=100.0 * float(np.mean([site.left_out_held for site in sites])),
        month_bias_pct=tuple(
            100.0 * float(np.nanmean(months[:, month])) if known[month] else None for month in range(12)
        ),
    )


def _of_errors(years: Floats, months: Floats) -> tuple[float, float, float, float]:
    """Bias, standard deviation and 90th percentile of size of years, 90th percentile of size of months, per cent."""
    return (
        100.0 * float(years.mean()),
        100.0 * float(years.std(ddof=1)),
        100.0 * float(np.quantile(np.abs(years), 0.9)),
        100.0 * float(np.nanquantile(np.abs(months), 0.9)),
    )


def _line(score: Score) -> str:
    bias, sd, p90, month_p90 = score.left_out_pct
    return (
        f"{score.group:29}{score.sites:6d}{score.bias_pct:6.1f}{score.sd_pct:5.1f}{score.p90_pct:6.1f}"
        f"{score.month_p90_pct:11.1f} |{bias:7.1f}{sd:5.1f}{p90:6.1f}{month_p90:7.1f} |"
        f"{score.held_pct:5.0f}{score.left_out_held_pct:5.0f}"
    )
