"""How far would the year's energy move if an assumption were off by as much as it may be?"""

from collections.abc import Callable, Mapping
from dataclasses import asdict, replace
from math import isfinite

from service.core.completion.alternatives import HANGS_ON, Value, alternatives, why_unmoved
from service.core.completion.defaults import pattern_of
from service.core.completion.fill_inverter import input_of
from service.core.completion.node import Node
from service.core.completion.stands_square import SQUARE_TO_PANEL
from service.core.energy import more_volts, untold_points
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Panel, Setup
from service.core.model.pointer import replaced_at, value_at
from service.core.tilt import AT_RAILING_OR_WALL

_VOC, _VMP = "open_circuit_voltage_v", "max_power_voltage_v"
_ISC, _IMP = "short_circuit_current_a", "max_power_current_a"
_AZIMUTH, _FACADE = "plane/azimuth_deg", "facade_azimuth_deg"
_HEIGHT, _BUILDING = "height_above_ground_m", "fixing/building_height_m"


def moves(setup: Setup, assumptions: Assumptions, year_kwh: Callable[[Setup], float]) -> Mapping[str, float]:
    """By pointer: the most that the year's energy moves at either end of an assumption's range or another choice.

    Args:
        setup: the complete request.
        assumptions: what was assumed in it.
        year_kwh: the middle energy of a year of a setup, in kWh; asked once for each other value.

    Returns:
        Share of the year's energy, never negative, for each assumption that might have been another value on which the
        year could hang; nothing else is listed, see ``unmoved``. A panel's assumed voltages and currents move together,
        so that the rated power stays, and so do a panel and a facade that was taken square to it. Equal assumptions of
        several inputs or arrays are moved one at a time. Empty where the year gives nothing.
    """
    base = year_kwh(setup)
    if not base > 0:
        return {}
    found = {}
    for assumption in assumptions.by_pointer.values():
        others = alternatives(setup, assumption, assumptions)
        if not others:
            continue
        asked = [year_kwh(moved(setup, assumptions, assumption, other)) for other in others]
        shares = [abs(kwh / base - 1) for kwh in asked if isfinite(kwh)]
        found[assumption.pointer] = max(shares, default=0.0)
    return found


def unmoved(setup: Setup, assumptions: Assumptions) -> Mapping[str, str]:
    """By pointer: why an assumption has no figure in ``moves``: no_range or does_not_move_the_year."""
    reasons = ((one.pointer, why_unmoved(setup, one, assumptions)) for one in assumptions.by_pointer.values())
    return {pointer: reason for pointer, reason in reasons if reason is not None}


def moved(setup: Setup, assumptions: Assumptions, assumption: Assumption, end: Value) -> Setup:
    """The setup with one assumption at ``end``; what was assumed by it follows.

    A panel's other assumed electric values; the facade that was taken square to a panel; with such a facade the panel
    that hangs on it; with one that was assumed the panel that was turned before it, and the other way; the building
    that was assumed above panels; the window, start and current that an input was taken to have by its limits.
    """
    pointer = assumption.pointer
    if pattern_of(pointer) in HANGS_ON:
        return _input_taken_anew(setup, pointer, end, assumptions)
    old = value_at(setup, pointer)
    if isinstance(end, int | float) and isinstance(old, int) and pointer.endswith("cells_in_series"):
        end = round(end)
    changed = replaced_at(setup, pointer, end)
    if pointer.endswith((_AZIMUTH, _FACADE)):
        return _turned_along(changed, pointer, end - old, assumptions)
    if pointer.endswith(_HEIGHT):
        return _raised_along(changed, pointer.removesuffix(_HEIGHT) + _BUILDING, end - old, assumptions)
    before, _, name = pointer.rpartition("/")
    if not before.endswith("/panel") or name not in {_VOC, _VMP, _ISC, _IMP, "cells_in_series"}:
        return changed
    panel = value_at(setup, before)
    return replaced_at(changed, before, _followed(panel, before, name, end / old, assumptions))


def _input_taken_anew(setup: Setup, pointer: str, end: Value, assumptions: Assumptions) -> Setup:
    """What nobody told of an input, as it is taken where this limit of it is told."""
    place, _, name = pointer.rpartition("/")
    told = {
        of: one for of, one in asdict(value_at(setup, place)).items() if f"{place}/{of}" not in assumptions.by_pointer
    }
    node = Node({**told, name: end}, place, [])
    return replaced_at(setup, place, input_of(node, setup.inverter.ac_power_w, setup.inverter.input_count))


def _followed(panel: Panel, pointer: str, name: str, ratio: float, assumptions: Assumptions) -> Panel:
    """Voltages scale together, currents against them; only the assumed ones give way."""
    volts = ratio if name in {_VOC, _VMP, "cells_in_series"} else 1 / ratio
    followed = more_volts(panel, untold_points(pointer, assumptions), volts)
    if name == "cells_in_series":
        return replace(followed, cells_in_series=max(1, round(panel.cells_in_series * ratio)))
    return followed


def _turned_along(changed: Setup, pointer: str, turn_deg: float, assumptions: Assumptions) -> Setup:
    array = pointer.removesuffix(_AZIMUTH).removesuffix(_FACADE)
    facade = assumptions.by_pointer.get(array + _FACADE)
    if facade is None:
        return changed
    other = array + (_FACADE if pointer.endswith(_AZIMUTH) else _AZIMUTH)
    hangs = value_at(changed, f"{array}mount") in AT_RAILING_OR_WALL and facade.code == SQUARE_TO_PANEL
    if pointer.endswith(_AZIMUTH) or hangs or assumptions.assumed(other):
        turned = (value_at(changed, other) + turn_deg) % 360.0
        if pointer.endswith(_FACADE) and not hangs and not value_at(changed, f"{array}side_walls"):
            turned = _to_the_sun(turned, float(value_at(changed, pointer)), south=changed.site.latitude_deg < 0)
        return replaced_at(changed, other, turned)
    return changed


def _to_the_sun(azimuth_deg: float, facade_deg: float, *, south: bool) -> float:
    """The way that a panel before a facade with nothing beside it looks, or its mirror: whichever is nearer midday."""
    midday, ways = 0.0 if south else 180.0, (azimuth_deg, (2.0 * facade_deg - azimuth_deg) % 360.0)
    return min(ways, key=lambda way: abs((way - midday + 180.0) % 360.0 - 180.0))


def _raised_along(changed: Setup, building: str, by_m: float, assumptions: Assumptions) -> Setup:
    if not assumptions.assumed(building):
        return changed
    return replaced_at(changed, building, value_at(changed, building) + by_m)
