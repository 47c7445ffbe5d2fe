"""How right is the chain from light to power? The core against measured systems, beside a usual library chain.

The workload is ``measured_systems``'; the reference figures are those of direct calls of a public library on the same
files (sun, transposition, cell temperature, De Soto's model, physical glass, quadratic inverter).
"""

import argparse
import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from service.bench.measured_systems import (
    AlbuquerqueResult,
    Clipping,
    Errors,
    GoldenResult,
    ModuleResult,
    albuquerque,
    clipping,
    golden,
    level_to_slope,
    module,
)

FOLDER = Path("tests/reference/measured")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredReport:
    """All comparisons; slope by ground reflectance."""

    golden: GoldenResult
    albuquerque: AlbuquerqueResult
    slope: tuple[tuple[float, Errors], ...]
    module: ModuleResult
    clipping: tuple[Clipping, ...]

    def __str__(self) -> str:
        """A plain table: what, here, the reference."""
        return "\n".join(f"{what:58}{here:>24}{reference:>26}" for what, here, reference in self._lines())

    def _lines(self) -> Iterator[tuple[str, str, str]]:
        yield "per cent", "here", "library chain"
        g = self.golden
        yield "1 kW, two years: as it is", f"{g.as_is_bias_pct:+.1f}", "+11.2"
        yield "  factor of odd days; bias of even ones", f"{g.factor:.3f}; {g.bias_pct:+.1f}", "0.911; +0.3"
        yield "  hours, of the mean (of the rating)", f"{g.hourly_pct:.1f} ({g.hourly_of_rating_pct:.1f})", "8.3 (3.0)"
        low, high = g.months_pct
        yield "  days; months", f"{g.daily_pct:.1f}; {low:+.1f} .. {high:+.1f}", "4.0; -2.7 .. +3.6"
        a = self.albuquerque
        for at, reference in ((0, "+0.2; 3.3; 2.3"), (1, "-1.9; 3.7; 3.2")):
            minute, quarter = a.minutes[at], a.quarters[at]
            here = f"{minute.bias_pct:+.1f}; {minute.rms_pct:.1f}; {quarter.rms_pct:.1f}"
            yield f"string {at + 1}: bias; minutes; quarter-hours", here, reference
        yield "level ground to plane, an afternoon: bias; minutes", _pair(a.plane), "+2.9; 5.8"
        for (reflectance, slope), reference in zip(self.slope, ("-1.7; 3.5", "+1.0; 3.2"), strict=True):
            yield f"level to 40 south, a week, ground {reflectance}: bias; hours", _pair(slope), reference
        for name, reference in (("power", "+1.0; 2.0"), ("open_voltage", "+0.5; 0.3"), ("peak_current", "-0.1; 0.7")):
            here = f"{self.module.mean_pct[name]:+.1f}; {self.module.median_pct[name]:.1f}"
            yield f"module, {name.replace('_', ' ')}: mean; median of size", here, reference
        for share, (median, p90) in self.module.beside_peak_pct.items():
            yield (
                f"module, power at {share} of its voltage: median; p90",
                f"{median:+.1f}; {p90:.1f}",
                "0.0 .. +0.1; 1.4 .. 2.5",
            )

        for cut in self.clipping:
            model = "" if cut.model_pct is None else f"; model {cut.model_pct:+.0f}"
            yield (
                f"cut at {cut.limit:g} ({100 * cut.cut_share:.0f} %), {cut.where}",
                f"own spread {cut.own_spread_pct:+.0f}{model}",
                f"hourly means {cut.hourly_pct:+.0f}",
            )


def _pair(found: Errors) -> str:
    return f"{found.bias_pct:+.1f}; {found.rms_pct:.1f}"


def main(arguments: Sequence[str]) -> int:
    """``bench measured [FOLDER] [--json]``: FOLDER holds the measured files, those of the tests by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench measured")
    parser.add_argument("folder", nargs="?", type=Path, default=FOLDER)
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    report = measured_bench(chosen.folder)
    print(json.dumps(asdict(report)) if chosen.json else report)
    return 0


def measured_bench(folder: Path) -> MeasuredReport:
    """All comparisons on the files of a folder."""
    return MeasuredReport(
        golden=golden(folder),
        albuquerque=albuquerque(folder),
        slope=tuple((reflectance, level_to_slope(folder, reflectance)) for reflectance in (0.2, 0.5)),
        module=module(folder),
        clipping=tuple(clipping(folder)),
    )
