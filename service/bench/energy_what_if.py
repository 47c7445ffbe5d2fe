"""What do changed sets cost beside one year of the library's functions by hand, by how the panels share an input?

The workload: every change that ``energy.what_if`` asks of the request's set, the year itself known. Its arrays are each
on an input of their own, as they are; or all on the first one, in parallel or as one string, as they stand or turned
apart. That input is made wide enough. The check of each changed set and its use at home are timed with it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from time import process_time
from typing import Any

import numpy as np

from service.api.answers.question import Question
from service.api.answers.what_if import what_if
from service.api.schemas.requests import AppraisalIn
from service.app import deps_of
from service.core.energy import Lights, array_conditions
from service.core.model.facts import Array, Setup
from service.core.model.place import Plane
from service.settings import Settings

_WIDE: Mapping[str, Any] = {
    "max_input_voltage_v": 150.0, "tracking_min_v": 16.0, "tracking_max_v": 140.0, "max_current_a": 40.0,
    "max_short_circuit_current_a": 60.0,
}  # fmt: skip
_TURNED_DEG = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIfCost:
    """By wiring: how many changes, and CPU milliseconds for all of them, beside those of a year by hand."""

    changes: Mapping[str, int]
    ms: Mapping[str, float]
    by_hand: Mapping[str, float]


def what_if_cost(request_file: Path, by_hand: Callable[[], float], rounds: int) -> WhatIfCost:
    """Time all wirings, in turns with the functions by hand.

    Args:
        request_file: JSON of one appraisal of two arrays.
        by_hand: one year by the library's functions.
        rounds: how many rounds medians are taken of.
    """
    asked = Question.asked(AppraisalIn, request_file.read_bytes(), deps_of(Settings()))
    asked = replace(asked, include=asked.include | {"what_if"})
    questions = {name: asked.instead(setup, asked.assumptions) for name, setup in _wirings(asked.setup).items()}
    changes = {name: len(what_if(question) or ()) for name, question in questions.items()}
    rows = np.array(
        [[_ms(by_hand), *(_ms(partial(what_if, _known(one))) for one in questions.values())] for _ in range(rounds)]
    )
    shares = np.median(rows[:, 1:] / rows[:, :1], axis=0)
    return WhatIfCost(
        changes=changes,
        ms=dict(zip(questions, np.median(rows[:, 1:], axis=0).tolist(), strict=True)),
        by_hand=dict(zip(questions, shares.tolist(), strict=True)),
    )


def _known(question: Question) -> Question:
    """The same question with its own year and light known, and no changed set's."""
    fresh = replace(question, lights=Lights())
    array_conditions(fresh.setup, fresh.sky, fresh.lights)
    _ = fresh.direct, fresh.meter, fresh.use, fresh.card  # each is kept once it was asked for
    return fresh


def _wirings(setup: Setup) -> dict[str, Setup]:
    inputs = tuple(replace(one, **_WIDE) for one in setup.inverter.inputs)
    wide = replace(setup, inverter=replace(setup.inverter, inputs=inputs))

    def wired(joined: str | None, turned_deg: float = 0.0) -> Setup:
        def one(at: int, array: Array) -> Array:
            azimuth = (array.plane.azimuth_deg + at * turned_deg) % 360.0
            plane = Plane(tilt_deg=array.plane.tilt_deg, azimuth_deg=azimuth)
            return (
                replace(array, plane=plane) if joined is None else replace(array, plane=plane, input=1, joined=joined)
            )

        return replace(wide, arrays=tuple(one(at, array) for at, array in enumerate(wide.arrays)))

    return {
        "own inputs": wired(None),
        "one input, in parallel": wired("parallel"),
        "one input, in parallel, another way": wired("parallel", _TURNED_DEG),
        "one string": wired("one_string"),
        "one string, another way": wired("one_string", _TURNED_DEG),
    }


def _ms(way: Callable[[], object]) -> float:
    started = process_time()
    way()
    return 1000.0 * (process_time() - started)


def report(cost: WhatIfCost) -> str:
    """The figures as a table, ratios first."""
    lines = [f"{f'what_if, {name} / by hand':56}{ratio:.2f} x" for name, ratio in cost.by_hand.items()]
    lines += [f"{f'what_if, {name}':56}{ms:.1f} ms, {cost.changes[name]} changes" for name, ms in cost.ms.items()]
    return "\n".join(lines)
