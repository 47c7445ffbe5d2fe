"""What would the year and the use at home be with one thing about the set changed?

Each change goes through the plain chain of ``core.energy`` (inputs and light that it leaves alone are not computed
again), so that the figures are those of a question about the changed set. They are without a battery, as the year and
its use at home are told everywhere.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np

from service.core.appraisal.changes import Change, assumed_after, changes_of
from service.core.compatibility import Compatibility
from service.core.energy import (
    ArrayConditions,
    ArrayHours,
    KnownInputs,
    Lights,
    alternating_current_w,
    array_conditions,
    direct_current_again,
)
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Part, Verdict
from service.core.model.hours import SkyYear
from service.core.model.patch import Operation, patched
from service.core.worth import AtTheMeter

# Eight arrays that all differ have four changes each at most, the inverter four; of shadows the rest is told.
MOST_CHANGES = 40
# With light that was measured in each array's plane there is none of other planes, shadows or arrays.
_OF_THE_SAME_LIGHT = ("/count", "/joined", "/mismatch_share", "/set_limit_w")

Check = Callable[[Setup, Assumptions, tuple[ArrayConditions, ...]], Compatibility]


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """A change, the middle of its year after an export limit, what of that is used at home, the verdict on it.

    The verdict takes nothing for known that nobody told; where all that was taken, told, would not fit, that is said.
    ``verdict_told``: may the verdict be new to whoever knows that of the set as it is?
    """

    code: str
    facts: Mapping[str, Fact]
    patch: tuple[Operation, ...]
    year_kwh: float
    self_used_kwh: float
    verdict_then: Verdict
    verdict_told: bool


def what_ifs(
    setup: Setup,
    assumptions: Assumptions,
    sky: SkyYear,
    hours: tuple[ArrayHours, ...],
    meter: AtTheMeter,
    check: Check,
    lights: Lights | None = None,
) -> tuple[WhatIf, ...]:
    """The changes that the set admits, one after the other, at most ``MOST_CHANGES``.

    Args:
        setup: the completed request. Planes that were left open stay as they were settled for it.
        assumptions: what of it was assumed.
        sky: the place's hours.
        hours: ``direct_current`` of the set.
        meter: the set and its home.
        check: what fits, of a changed set, by how hot and how cool its cells are. A way of adding or moving panels that
            the panel side refuses is not told.
        lights: what is known of the light on the arrays; added to.
    """
    cells = tuple(
        ArrayConditions(name=array.name, hottest_cell_c=one.hottest_cell_c, cool_cell_c=one.cool_cell_c)
        for array, one in zip(setup.arrays, hours, strict=True)
    )
    now = check(setup, assumptions, cells)
    verdict_now = _verdict(now, setup, assumptions, cells, check)
    inputs = KnownInputs(setup, sky, hours, lights or Lights())
    asked = partial(_asked, _Known(setup, assumptions, sky, inputs, meter, check, cells, now, verdict_now))
    found: list[WhatIf] = []
    for ways in changes_of(setup, assumptions):
        if len(found) == MOST_CHANGES:
            break
        fitting = (asked(way) for way in ways if sky.plane_w_per_m2 is None or _same_light(way))
        first = next((one for one in fitting if one is not None), None)
        if first is not None:
            found.append(first)
    return tuple(found)


@dataclass(frozen=True, slots=True, eq=False)
class _Known:
    """The set as it is; its names are those of ``what_ifs``."""

    setup: Setup
    assumptions: Assumptions
    sky: SkyYear
    inputs: KnownInputs
    meter: AtTheMeter
    check: Check
    cells: tuple[ArrayConditions, ...]
    now: Compatibility
    verdict_now: Verdict


def _asked(known: _Known, change: Change) -> WhatIf | None:
    """The change asked about; None where panels would be put where the panel side refuses them."""
    setup, sky, meter = known.setup, known.sky, known.meter
    changed = patched(setup, change.patch)
    cells = array_conditions(changed, sky, known.inputs.lights)
    verdicts, verdict = known.now, known.verdict_now
    if not (_leaves_what_is_checked(change) and cells == known.cells):
        assumptions = assumed_after(known.assumptions, change.patch, len(setup.arrays))
        verdicts = known.check(changed, assumptions, cells)
        verdict = _verdict(verdicts, changed, assumptions, cells, known.check)
    if change.adds_load and verdicts.by_part.get(Part.PANEL_SIDE) == Verdict.DOES_NOT_FIT:
        return None
    direct = direct_current_again(changed, known.inputs, account=False)
    ac_w = alternating_current_w(changed, direct, sky)
    left_w = meter.left_w(ac_w)
    used_w = np.minimum(meter.used_w(ac_w), left_w)
    return WhatIf(
        code=change.code,
        facts=change.facts,
        patch=change.patch,
        year_kwh=float(left_w.sum()) / 1000.0,
        self_used_kwh=float(used_w.sum()) / 1000.0,
        verdict_then=verdict,
        verdict_told=change.adds_load or verdict != known.verdict_now,
    )


def _verdict(
    found: Compatibility, setup: Setup, assumptions: Assumptions, cells: tuple[ArrayConditions, ...], check: Check
) -> Verdict:
    """``does_not_fit`` also where it is not known and the values taken, told, would not fit; never the other way."""
    if found.verdict != Verdict.NOT_KNOWN:
        return found.verdict
    still_open = Assumptions({at: one for at, one in assumptions.by_pointer.items() if one.value is None})
    told = check(setup, still_open, cells).verdict
    return told if told == Verdict.DOES_NOT_FIT else found.verdict


def _leaves_what_is_checked(change: Change) -> bool:
    """Is only a shadow gone? What fits hangs on it by the cells alone."""
    return all(one.op == "remove" and "/shade/" in one.path for one in change.patch)


def _same_light(change: Change) -> bool:
    return all(one.op == "add" and one.path.endswith(_OF_THE_SAME_LIGHT) for one in change.patch)
