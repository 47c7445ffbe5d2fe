"""From light on a plane to d.c. power at the inverter: the one place where the physics is chained.

Everything here works on the hours of one input. A faster inside may replace ``input_hours``: its callers know only
``InputHours``.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

import numpy as np

from service.core.energy.cells import CellYear, cell_year
from service.core.energy.leads import lead_resistance_ohm
from service.core.energy.next_to_nothing import little_of
from service.core.energy.result import Little
from service.core.energy.sheet import diode_of_sheet
from service.core.errors import ContradictionError
from service.core.model.facts import Array, Input
from service.core.model.hours import Bools, Floats, Ints, SkyYear
from service.core.panel import (
    Branch,
    Diode,
    Drawn,
    drawn_in_string,
    drawn_together,
    max_power,
    with_series_resistance,
)
from service.core.sky import PlaneLight, stays_share

WATT_HOURS_PER_KWH = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ArrayHours:
    """One array's year on its input: d.c. power drawn (8760,), whether the input ran, and its account in kWh.

    ``free_w`` and ``most_w`` are those of ``panel.Drawn``; the share and grey faces those of ``sky.PlaneLight``;
    ``little``: why next to nothing comes of it, where that is so and was asked.
    """

    dc_w: Floats
    free_w: Floats
    most_w: Floats
    running: Bools
    lit: Bools
    light_kwh: float
    lost_kwh: Mapping[str, float]
    hottest_cell_c: float
    cool_cell_c: float
    ground_left_share: float
    more_by_faces_kwh_per_m2: float
    little: Little | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lit:
    """An array with its light: all that the chain needs of it. ``at`` is its place in the request, from 0.

    ``rear_w_per_m2`` (8760,) is what its rear adds to the light that drives the current; None where it does not count.
    ``known_cells``: its ``cell_year``, where it is at hand.
    """

    at: int
    array: Array
    light: PlaneLight
    rear_w_per_m2: Floats | None = None
    known_cells: CellYear | None = None

    def both_sides_w_per_m2(self) -> Floats:
        """Light that drives the current: the front's, and the rear's where it counts. Dirt is taken to dim both."""
        front = self.light.effective_w_per_m2
        return front if self.rear_w_per_m2 is None else front + self.rear_w_per_m2


def remaining_share(array: Array, ageing_share_per_year: float) -> float:
    """What ageing has left of a panel's power: (1 - rate)^years of its age.

    The rate is the request's own (its default, 0.5 % a year, is the median of some 2000 rates: Jordan and Kurtz,
    Progress in Photovoltaics 21 (2013) 12-29, doi 10.1002/pip.1182). The first days' loss of new cells (1 to 2 %)
    is not taken off apart: the label's tolerance and the rates of that study, which begin at the first summer,
    contain it; it is in the spread. Year 1 of a new set is un-aged.
    """
    return float((1.0 - ageing_share_per_year) ** array.panel.age_years)


def input_hours(
    on_input: Sequence[Lit], sky: SkyYear, limits: Input, ageing_share_per_year: float, *, account: bool = True
) -> tuple[ArrayHours, ...]:
    """The year of the arrays on one input, in their order.

    Dirt dims the light, and so does snow: the part of the time that it lies on the glass is taken from every hour
    alike. Ageing and mismatch lower the current and leave the voltage. The leads stand in series with the panels, so
    that the input sees their voltage drop. Arrays on one input share its voltage, or, as one string, its current.
    Without ``account`` the losses are not told, which spares the panels' power on their own.

    Raises:
        ContradictionError: a panel's datasheet makes no curve; or some arrays of an input are one string, others not.
    """
    bare = _bare_of(on_input, sky, ageing_share_per_year, account=account)
    together = drawn_in_string if _are_one_string(on_input) else drawn_together
    drawn = together([one.branch for one in bare], limits)
    if len(bare) == 1 or not account:
        alone = [one.available_w for one in drawn]
    else:
        apart = {id(one.branch): one.branch for one in bare}
        peaks = {key: _own_peak_w(branch) for key, branch in apart.items()}
        alone = [peaks[id(one.branch)] for one in bare]
    months = sky.calendar.month
    return tuple(_hours(one, own, taken, months) for one, own, taken in zip(bare, alone, drawn, strict=True))


def _are_one_string(on_input: Sequence[Lit]) -> bool:
    """Does one current flow through several arrays?"""
    others = [lit.at for lit in on_input if lit.array.joined != "one_string"]
    if others and len(others) < len(on_input):
        pointer = f"/arrays/{others[0]}/joined"
        raise ContradictionError(
            pointer, "the other arrays of its input are one string", accepted="one_string, or another input",
            example="one_string",
        )  # fmt: skip
    return not others and len(on_input) > 1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bare:
    """An array before the input: cell temperature, clean and dirty light, power of its panels, what is left of it."""

    lit: Lit
    branch: Branch
    dirty_w_per_m2: Floats
    cells: CellYear
    panels_w: Floats | None
    aged_share: float
    matched_share: float


def _bare_of(on_input: Sequence[Lit], sky: SkyYear, ageing_share_per_year: float, *, account: bool) -> list[_Bare]:
    """Each array of an input; of those that differ in name alone one speaks for all."""
    known: dict[Hashable, _Bare] = {}
    found = []
    for lit in on_input:
        alike = replace(lit.array, name=""), id(lit.light), id(lit.rear_w_per_m2)
        if alike not in known:
            known[alike] = _bare(lit, sky, ageing_share_per_year, account=account)
        found.append(replace(known[alike], lit=lit))
    return found


def _bare(lit: Lit, sky: SkyYear, ageing_share_per_year: float, *, account: bool) -> _Bare:
    array = lit.array
    diode = _diode_of(lit)
    cells = cell_year(array.mount, lit.light, sky) if lit.known_cells is None else lit.known_cells
    dirty = lit.both_sides_w_per_m2() * (1 - array.dirt_share)
    works = dirty
    if sky.snow_share is not None:
        works = dirty * (1 - sky.snow_share * stays_share(array.plane.tilt_deg))
    in_series, in_parallel = (array.count, 1) if array.joined != "parallel" else (1, array.count)
    aged, matched = remaining_share(array, ageing_share_per_year), 1 - array.mismatch_share
    strings = in_parallel * aged * matched
    lead_ohm = lead_resistance_ohm(array.lead_length_m, array.lead_mm2) * strings / in_series
    return _Bare(
        lit=lit,
        branch=Branch(
            diode=with_series_resistance(diode, lead_ohm), irradiance_w_per_m2=works, cell_c=cells.by_hour_c,
            in_series=in_series, strings=strings,
        ),
        dirty_w_per_m2=dirty,
        cells=cells,
        panels_w=max_power(diode, works, cells.by_hour_c).power_w * array.count if account else None,
        aged_share=aged,
        matched_share=matched,
    )  # fmt: skip


def _diode_of(lit: Lit) -> Diode:
    """The panel's model; a contradiction in its sheet is told from the request's root."""
    panel = lit.array.panel
    try:
        return diode_of_sheet(panel)
    except ContradictionError as error:
        pointer = f"/arrays/{lit.at}/panel{error.pointer}"
        raise ContradictionError(
            pointer, error.problem, given=error.given, accepted=error.accepted, example=error.example
        ) from error


def _own_peak_w(branch: Branch) -> Floats:
    power = max_power(branch.diode, branch.irradiance_w_per_m2, branch.cell_c).power_w
    return power * (branch.in_series * branch.strings)


def _hours(bare: _Bare, own_peak_w: Floats, drawn: Drawn, months: Ints) -> ArrayHours:
    """The account of one array: each stage's yearly sum, and the losses between them."""
    array, light = bare.lit.array, bare.lit.light
    rated = array.panel.rated_power_w * array.count / 1000.0  # kW at 1000 W/m2, so that W/m2 become W
    lit, little = light.effective_w_per_m2 > 0, None
    lost_kwh: Mapping[str, float] = {}
    if bare.panels_w is not None:
        account = partial(_lost_kwh, bare, rated, bare.panels_w, own_peak_w, drawn)
        lost_kwh = account(None)
        little = little_of(rated * light.open_w_per_m2, drawn.power_w, lit & ~drawn.running, months, account, lost_kwh)
    return ArrayHours(
        dc_w=drawn.power_w,
        free_w=drawn.free_w,
        most_w=drawn.most_w,
        running=drawn.running,
        lit=lit,
        light_kwh=rated * _kwh(light.open_w_per_m2),
        lost_kwh=lost_kwh,
        hottest_cell_c=bare.cells.hottest_c,
        cool_cell_c=bare.cells.cool_c,
        ground_left_share=light.ground_left_share,
        more_by_faces_kwh_per_m2=light.more_by_faces_kwh_per_m2,
        little=little,
    )


def _lost_kwh(
    bare: _Bare, rated: float, panels_w: Floats, own_peak_w: Floats, drawn: Drawn, within: Bools | None
) -> Mapping[str, float]:
    """What each stage takes: of the light as rated power (kW), of the panels' power, of what the input draws.

    ``within``: the hours asked about; None: all.
    """

    def kwh(watts: Floats) -> float:
        return _kwh(watts if within is None else watts[within])

    light, panels = bare.lit.light, kwh(panels_w)
    stages = [
        ("skyline", rated * kwh(light.open_w_per_m2)),
        ("overhang", rated * kwh(light.after_skyline_w_per_m2)),
        ("shade", rated * kwh(light.after_overhang_w_per_m2)),
        ("cover", rated * kwh(light.after_shade_w_per_m2)),
        ("angle", rated * kwh(light.after_cover_w_per_m2)),
        ("rear_light", rated * kwh(light.effective_w_per_m2)),
        ("dirt", rated * kwh(bare.lit.both_sides_w_per_m2())),
        ("snow", rated * kwh(bare.dirty_w_per_m2)),
        ("heat_and_light", rated * kwh(bare.branch.irradiance_w_per_m2)),
        ("ageing", panels),
        ("mismatch", panels * bare.aged_share),
        ("leads", panels * bare.aged_share * bare.matched_share),
        ("end", kwh(own_peak_w)),
    ]
    lost = {code: before - after for (code, before), (_, after) in pairwise(stages)}
    lost["mismatch"] += kwh(own_peak_w) - kwh(drawn.available_w)
    lost["voltage_window"] = kwh(drawn.lost_to_window_w)
    lost["current_limit"] = kwh(drawn.lost_to_current_w)
    lost["power_limit"] = kwh(drawn.lost_to_power_limit_w)
    return lost


def _kwh(watts: Floats) -> float:
    """The sum of hourly means in kWh."""
    return float(np.sum(watts)) / WATT_HOURS_PER_KWH
