"""How much less than others' year of hours does the kernel's cost? CPU of the process, as ratios within one run.

The workload: place, panels, planes and inverter of one appraisal's request (the file that is given), two arrays with
nothing around them, 8760 hours to a year's kWh. Each round times, one after the other: the usual library chain, the
library's functions called by hand, this service's plain chain, and the kernel: warm (place, panel, inverter and planes
at hand), in planes that it meets for the first time, and cold (nothing but the hours and the datasheet). A ratio is
the median over the rounds of each round's own. Growth is the slope of log cost over log size: at most 1 where twice
the hours, planes or arrays cost at most twice as much. ``energy_bulk`` adds a map, ten thousand flats and a start,
``energy_what_if`` the changed sets of a question, and ``shortlist`` a ranking of adverts.

How far the kernel's year lies from the plain chain's (goal: 0.02 %) and from that of the functions by hand is told as
the worst of its three ways. These two agree within 0.01 %, as both count the leads: without them the functions by hand
had 0.5 % more.
"""

import argparse
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from time import process_time
from typing import Any

import numpy as np

from service.api.answers.question import Question
from service.api.schemas.requests import AppraisalIn
from service.app import deps_of
from service.bench import energy_bulk, energy_what_if
from service.bench.shortlist import shortlist_cost
from service.core.energy.kernel import (
    PLANES_AT_ONCE,
    HourlyOutput,
    InputTable,
    OpenPlanes,
    PlaceRecord,
    dc_w,
    input_table,
    open_planes,
    output_table,
    place_record,
    together_w,
)
from service.core.energy.kernel.place import Singles, single
from service.core.energy.kernel.snow import Snow
from service.core.model.facts import Array, Input, Inverter
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.panel import five_parameters_of
from service.settings import Settings

ROUNDS = 15
_SHORTLIST = Path("examples/adverts/kranichwerft_shortlist.json")
REFLECTANCE_SHARE = 0.2
# Without ``fixing`` no house stands behind a panel, of which the other ways know nothing.
_NOTHING_AROUND: dict[str, Any] = {
    "skyline": (), "overhang": None, "side_walls": (), "shade": (), "cover": None, "fixing": None,
}  # fmt: skip
_LEAST_SECONDS = 0.01  # a clock that runs shorter is read too coarsely


@dataclass(frozen=True, slots=True, kw_only=True)
class EnergyCost:
    """Median CPU milliseconds by way, medians of ratios, yearly energy by way, slopes of growth."""

    ms: Mapping[str, float]
    ratios: Mapping[str, float]
    kwh: Mapping[str, float]
    growth: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Alike:
    """Arrays that differ in their planes alone, on equal inputs: one table speaks for all."""

    array: Array
    table: InputTable
    planes: tuple[Plane, ...]
    opened: OpenPlanes


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Kernel:
    """The set at its place, as far as the kernel keeps it."""

    record: PlaceRecord
    groups: tuple[_Alike, ...]
    output: HourlyOutput
    hours: Singles

    @classmethod
    def of(cls, arrays: tuple[Array, ...], inverter: Inverter, sky: SkyYear) -> "_Kernel":
        """All from the hours and the datasheets."""
        record = place_record(sky)
        alike: dict[tuple[Array, Input], list[Plane]] = {}
        for array, limits in zip(arrays, inverter.inputs, strict=False):
            key = (replace(array, name="", input=1, plane=arrays[0].plane), limits)
            alike.setdefault(key, []).append(array.plane)
        groups = tuple(
            _Alike(
                array=array,
                table=input_table(array, limits, 1.0),
                planes=tuple(planes),
                opened=open_planes(array, record, planes, REFLECTANCE_SHARE),
            )
            for (array, limits), planes in alike.items()
        )
        most_w = sum(group.table.most_w * len(group.planes) for group in groups)
        hours = record.air_c.size
        output = output_table(inverter, most_w).in_hours(hours, record.flicker_share)
        return cls(record=record, groups=groups, output=output, hours=np.ones(hours, np.float32))

    def year_kwh(self) -> float:
        """The year in the planes at hand."""
        dc = together_w([dc_w(group.opened.light(), group.table) for group in self.groups])
        return float(self.output.of(dc) @ self.hours) / 1000.0

    def in_new_planes(self) -> float:
        """The year, planes made anew."""
        return replace(
            self,
            groups=tuple(
                replace(group, opened=open_planes(group.array, self.record, group.planes, REFLECTANCE_SHARE))
                for group in self.groups
            ),
        ).year_kwh()


def main(arguments: Sequence[str]) -> int:
    """``bench energy [FILE] [--json]``: FILE is one appraisal's request, the Kranichwerft home by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench energy")
    parser.add_argument("file", nargs="?", type=Path, default=Path("examples/kranichwerft.json"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    cost = energy_cost(chosen.file)
    request_file, question, by_hand = _bulk_of(chosen.file)
    bulk = energy_bulk.bulk_cost(request_file, question, by_hand, rounds=ROUNDS)
    changed = energy_what_if.what_if_cost(request_file, by_hand, rounds=ROUNDS)
    ranking = shortlist_cost(_SHORTLIST).ratios["numbers / functions by hand"]
    if chosen.json:
        more = {"bulk": {**asdict(bulk), "ratios": bulk.ratios}, "what_if": asdict(changed), "ranking": ranking}
        print(json.dumps({**asdict(cost), **more}))
    else:
        print(report(cost), energy_bulk.report(bulk), energy_what_if.report(changed), sep="\n")
        print(f"{'ranking 200 panels x 5 inverters / functions by hand':53}{ranking:.2f} x   (bench shortlist)")
    return 0


def _bulk_of(request_file: Path) -> tuple[Path, Question, Callable[[], float]]:
    """The request completed, and one year of it by the library's functions."""
    from service.bench import energy_peers as peers  # noqa: PLC0415 - as below

    question = Question.asked(AppraisalIn, request_file.read_bytes(), deps_of(Settings()))
    arrays = tuple(replace(array, **_NOTHING_AROUND) for array in question.setup.arrays)
    diodes = [five_parameters_of(array.panel) for array in arrays]
    return request_file, question, lambda: peers.direct_kwh(arrays, diodes, question.setup.inverter, question.sky)


def energy_cost(request_file: Path, rounds: int = ROUNDS) -> EnergyCost:
    """Complete the request, then time all ways side by side.

    Args:
        request_file: JSON of one appraisal; its inverter has an input for each array.
        rounds: how many rounds medians are taken of.
    """
    from service.bench import energy_peers as peers  # noqa: PLC0415 - loads the library: slow, and here alone

    question = Question.asked(AppraisalIn, request_file.read_bytes(), deps_of(Settings()))
    setup, sky = question.setup, question.sky
    inverter = setup.inverter
    arrays = tuple(replace(array, **_NOTHING_AROUND) for array in setup.arrays)
    kernel = _Kernel.of(arrays, inverter, sky)
    diodes = [five_parameters_of(array.panel) for array in arrays]
    ways: dict[str, Callable[[], float]] = {
        "library chain": peers.usual_chain(arrays, inverter, sky, setup.site),
        "functions by hand": lambda: peers.direct_kwh(arrays, diodes, inverter, sky),
        "plain chain": lambda: peers.plain_kwh(arrays, inverter, sky),
        "kernel, warm": kernel.year_kwh,
        "kernel, new planes": kernel.in_new_planes,
        "kernel, cold": lambda: _Kernel.of(arrays, inverter, sky).year_kwh(),
    }
    kwh = {name: way() for name, way in ways.items()}
    rows = np.array([[_milliseconds(way) for way in ways.values()] for _ in range(rounds)])
    ms = dict(zip(ways, rows.T, strict=True))
    pairs = [(other, own) for own in list(ways)[3:] for other in list(ways)[:3]]
    return EnergyCost(
        ms={name: float(np.median(column)) for name, column in ms.items()},
        ratios={f"{other} / {own}": float(np.median(ms[other] / ms[own])) for other, own in pairs},
        kwh=kwh,
        growth=_growth(kernel, rounds),
    )


def _growth(kernel: _Kernel, rounds: int) -> dict[str, float]:
    return {
        "hours": _slope([(of, _more_hours(kernel, of).year_kwh) for of in (1, 2, 4, 8)], rounds),
        "planes": _slope([(many, _many_planes(kernel, many)) for many in (8, 32, 128, 512)], rounds),
        "arrays": _slope([(many, _many_arrays(kernel, many).year_kwh) for many in (1, 2, 4, 8)], rounds),
    }


def _more_hours(kernel: _Kernel, eighths: int) -> _Kernel:
    """The kernel on so many eighths of the year's hours."""
    hours = slice(kernel.record.air_c.size * eighths // 8)

    def shorter(opened: OpenPlanes) -> OpenPlanes:
        return replace(
            opened,
            sun=single(opened.sun[:, hours]),
            even=single(opened.even[:, hours]),
            even_warms=single(opened.even_warms[:, hours]),
            beam_works=single(opened.beam_works[hours]),
            beam_warms=single(opened.beam_warms[hours]),
            edge_warms=single(opened.edge_warms[hours]),
            beam_behind=None if opened.beam_behind is None else single(opened.beam_behind[hours]),
            snow=None if opened.snow is None else Snow.of(single(opened.snow.share[hours])),
            first_of_day=opened.first_of_day[hours],
        )

    groups = tuple(replace(group, opened=shorter(group.opened)) for group in kernel.groups)
    return replace(kernel, groups=groups, output=kernel.output.part(hours), hours=kernel.hours[hours])


def _many_arrays(kernel: _Kernel, many: int) -> _Kernel:
    """So many arrays of kinds of their own, each with its table."""
    group = kernel.groups[0]
    one = replace(group, opened=open_planes(group.array, kernel.record, group.planes[:1], REFLECTANCE_SHARE))
    return replace(kernel, groups=(one,) * many)


def _many_planes(kernel: _Kernel, many: int) -> Callable[[], float]:
    """The first array in so many planes, all of it new but place, panel and inverter."""
    array, table = kernel.groups[0].array, kernel.groups[0].table
    planes = [Plane(tilt_deg=90.0 * i / many, azimuth_deg=137.5 * i % 360.0) for i in range(many)]

    def best_kwh() -> float:
        years = []
        for first in range(0, many, PLANES_AT_ONCE):
            light = open_planes(array, kernel.record, planes[first : first + PLANES_AT_ONCE], REFLECTANCE_SHARE).light()
            years.append(kernel.output.of(dc_w(light, table)) @ kernel.hours)
        return float(np.concatenate(years).max())

    return best_kwh


def _slope(sizes: Sequence[tuple[int, Callable[[], float]]], rounds: int) -> float:
    """Log cost over log size; each size's cost is its median over the rounds."""
    costs = np.median([[_milliseconds(way) for _, way in sizes] for _ in range(max(3, rounds // 3))], axis=0)
    return float(np.polyfit(np.log([size for size, _ in sizes]), np.log(costs), 1)[0])


def _milliseconds(way: Callable[[], float]) -> float:
    """CPU of one call, of as many as it takes to read the clock well."""
    calls, started = 0, process_time()
    while True:
        way()
        calls += 1
        taken = process_time() - started
        if taken >= _LEAST_SECONDS:
            return 1000.0 * taken / calls


def energy_off_pct(cost: EnergyCost) -> dict[str, float]:
    """How far the kernel's year is from those that count the same losses, the worst of its ways, in per cent."""
    own = [kwh for name, kwh in cost.kwh.items() if name.startswith("kernel")]
    return {
        other: max((100.0 * (kwh / cost.kwh[other] - 1.0) for kwh in own), key=abs)
        for other in ("plain chain", "functions by hand")
    }


def report(cost: EnergyCost) -> str:
    """The figures as a table, ratios first."""
    lines = [f"{name:44}{ratio:10.1f} x" for name, ratio in cost.ratios.items()]
    lines += [f"growth with {name:32}{slope:10.2f}" for name, slope in cost.growth.items()]
    lines += [
        f"{f'energy of the kernel against {name}':48}{off:+10.4f} %" for name, off in energy_off_pct(cost).items()
    ]
    lines += [f"{name:44}{cost.ms[name]:10.3f} ms {cost.kwh[name]:10.2f} kWh" for name in cost.ms]
    return "\n".join(lines)
