"""How long does a shortlist take, beside the library's functions for one year? CPU of the process, within one run.

The workload: 200 adverts of different panels, already read, and five of inverters, at the home of a request (the file
that is given), ten sets shown. Each round has new prices and distances; home, panels and inverters were met before, as
a hunter's are who looks again. ``numbers`` is the building and ordering of all sets; by new prices other panels come
among those that are judged, some of which never were: fewer from round to round, so that the median hangs on how many
rounds there are, and ``bench energy`` has as many. ``numbers again`` is the same once more, with all judged before.
``numbers, second list`` hangs on no round: of each list the first prices were asked about, and now come others.
``whole answer`` is all from the body to the JSON, ``new panels`` the whole answer where no panel was met before.
``functions by hand`` is one year of two arrays by the library's functions, as in ``bench energy``; ratios are the
median of each round's own, and goals are told as ratios: milliseconds hang on the machine, and on who else is at work
there.
"""

import argparse
import gc
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from random import Random
from time import process_time
from typing import Any

import numpy as np

from service.api.answers.question import Question
from service.api.answers.shortlist import adverts_shortlist
from service.api.answers.shortlist_home import ShortlistHome
from service.api.answers.shortlist_told import told_adverts
from service.api.deps import Deps
from service.api.render.json import as_json
from service.api.schemas.pause import no_garbage_looked_for
from service.api.schemas.reading import read_value
from service.api.schemas.requests import AppraisalIn
from service.api.schemas.shortlist import ShortlistIn
from service.app import deps_of
from service.core.model.memo import Memo
from service.core.panel import five_parameters_of
from service.core.shortlist import Screen, Taken
from service.settings import Settings

ROUNDS = 7
PANELS, INVERTERS = 200, 5
_SECOND = 1000  # from here on seeds of lists that are asked about twice
# 150 ms for the whole answer where a year by hand costs 10.2 ms; the numbers at most one and a half such years.
GOALS: Mapping[str, float] = {"numbers / functions by hand": 1.5, "whole answer / functions by hand": 150.0 / 10.2}
_APPRAISAL = Path("examples/kranichwerft.json")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortlistCost:
    """Median CPU milliseconds, medians of ratios to the functions by hand, and how many sets were looked at."""

    ms: Mapping[str, float]
    ratios: Mapping[str, float]
    sets: int


def main(arguments: Sequence[str]) -> int:
    """``bench shortlist [FILE] [--json]``: FILE is a shortlist's request, whose adverts are replaced."""
    parser = argparse.ArgumentParser(prog="python -m service bench shortlist")
    parser.add_argument("file", nargs="?", type=Path, default=Path("examples/adverts/kranichwerft_shortlist.json"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    cost = shortlist_cost(chosen.file)
    print(json.dumps(asdict(cost)) if chosen.json else report(cost))
    return 0


def shortlist_cost(request_file: Path, rounds: int = ROUNDS, panels: int = PANELS) -> ShortlistCost:
    """Time the parts side by side.

    Args:
        request_file: JSON of a shortlist's request.
        rounds: how many rounds medians are taken of.
        panels: how many adverts of panels.
    """
    home, deps = json.loads(request_file.read_text("utf-8")), deps_of(Settings())
    gc.collect()
    gc.freeze()  # as the service does at its start
    by_hand = functions_by_hand(deps)
    other = replace(deps, listed=Memo(deps.listed.size))  # what is kept of the first lists stays as it was
    sets = adverts_shortlist(_body(home, panels, 0, 0), deps).sets_looked_at
    names = ("functions by hand", "numbers", "numbers again", "numbers, second list", "whole answer", "new panels")
    rows = []
    for at in range(1, rounds + 1):
        known, fresh = _body(home, panels, 0, at), _body(home, panels, at, at)
        numbers = _numbers(known, deps)
        _numbers(_body(home, panels, _SECOND + at, 0), other)()
        second = _numbers(_body(home, panels, _SECOND + at, at), other)
        ways = (
            by_hand,
            numbers,
            numbers,
            second,
            lambda known=known: as_json(adverts_shortlist(known, deps)),
            lambda fresh=fresh: as_json(adverts_shortlist(fresh, deps)),
        )
        rows.append([_milliseconds(way) for way in ways])
    columns = np.array(rows).T
    return ShortlistCost(
        ms={name: float(np.median(column)) for name, column in zip(names, columns, strict=True)},
        ratios={f"{name} / {names[0]}": float(np.median(column / columns[0]))
                for name, column in zip(names[1:], columns[1:], strict=True)},
        sets=sets,
    )  # fmt: skip


def report(cost: ShortlistCost) -> str:
    """For people."""
    lines = [f"{name:<32} {ms:10.1f} ms" for name, ms in cost.ms.items()]
    for name, ratio in cost.ratios.items():
        goal = GOALS.get(name)
        met = "" if goal is None else f"   goal: at most {goal:.1f} x, {'met' if ratio <= goal else 'not met'}"
        lines.append(f"{name:<32} {ratio:10.2f} x{met}")
    return "\n".join([*lines, f"{'sets looked at':<32} {cost.sets:10d}"])


def _numbers(body: bytes, deps: Deps) -> Callable[[], object]:
    """The building and ordering of all sets, home and offers at hand."""
    request = read_value(ShortlistIn, json.loads(body))
    home = ShortlistHome.of(request, deps)
    offers = [one.found.offer for one in told_adverts(request, home, deps)[0] if isinstance(one.found, Taken)]
    at_home, terms = home.at_home, home.terms

    def screened() -> object:
        with no_garbage_looked_for():  # as in an answer
            return Screen(at_home, home.rooms, home.costs, terms, offers).screened()

    return screened


def functions_by_hand(deps: Deps) -> Callable[[], object]:
    """One year of the example's two arrays by the library's functions."""
    from service.bench import energy_peers as peers  # noqa: PLC0415 - loads the library: slow, and here alone

    question = Question.asked(AppraisalIn, _APPRAISAL.read_bytes(), deps)
    arrays = tuple(
        replace(array, skyline=(), overhang=None, side_walls=(), shade=(), cover=None)
        for array in question.setup.arrays
    )
    diodes = [five_parameters_of(array.panel) for array in arrays]
    return lambda: peers.direct_kwh(arrays, diodes, question.setup.inverter, question.sky)


def _body(home: Mapping[str, Any], panels: int, panel_seed: int, price_seed: int) -> bytes:
    """A request with invented adverts: panels by one seed, prices and distances by the other."""
    things, money = Random(panel_seed), Random(price_seed)  # noqa: S311 - the same adverts every time
    adverts = [_panel(f"p{at}", things, money) for at in range(panels)]
    adverts += [_inverter(f"i{at}", at, money) for at in range(INVERTERS)]
    return json.dumps({**home, "limit": 10, "adverts": adverts}).encode()


def _panel(name: str, things: Random, money: Random) -> dict[str, Any]:
    cells = things.choice([54, 60, 66, 72])
    volts, amperes = round(cells * things.uniform(0.66, 0.73), 1), round(things.uniform(9.0, 14.0), 2)
    at_work_v, at_work_a = round(volts * 0.84, 1), round(amperes * 0.94, 2)
    reading = {
        "kind": "panel", "language": "de", "quantity_available": things.choice([1, 2, 3, 4, 8, 20]),
        "price": {"value": money.randint(25, 90), "currency": "EUR", "basis": things.choice(["each"] * 5 + ["lot"])},
        "condition": things.choice(["used", "unused"]), "delivery": {"kind": "pickup"},
        "panel": {
            "rated_power_w": round(at_work_v * at_work_a), "open_circuit_voltage_v": volts,
            "short_circuit_current_a": amperes, "max_power_voltage_v": at_work_v, "max_power_current_a": at_work_a,
            "cells_in_series": cells, "voc_coefficient_pct_per_k": -0.28, "power_coefficient_pct_per_k": -0.35,
        },
    }  # fmt: skip
    return {"id": name, "reading": reading, "distance_km": money.randint(1, 60)}


def _inverter(name: str, at: int, money: Random) -> dict[str, Any]:
    limits = {
        "max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 22,
        "max_current_a": (11.5, 12, 13, 14, 15)[at], "max_short_circuit_current_a": (20, 20, 20, 20, 25)[at],
    }  # fmt: skip
    reading = {
        "kind": "inverter", "quantity_available": 1, "condition": "new",
        "price": {"value": money.randint(60, 150), "currency": "EUR", "basis": "each"},
        "inverter": {"ac_power_w": (300, 400, 600, 800, 800)[at], "input_count": (1, 1, 2, 2, 2)[at],
                     "inputs": [limits]},
    }  # fmt: skip
    return {"id": name, "reading": reading, "distance_km": money.randint(1, 60)}


def _milliseconds(way: Callable[[], object]) -> float:
    begin = process_time()
    way()
    return (process_time() - begin) * 1000.0
