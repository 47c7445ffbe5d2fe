"""What else might an assumption be, where no range is written down; and why does an assumption move nothing?"""

from collections.abc import Mapping
from types import MappingProxyType

from service.core.completion.defaults import pattern_of, row_for
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Setup
from service.core.model.pointer import value_at
from service.core.sky import has_edges

Value = str | float | int | bool

# Choices that the year may hang on, with what else is commonly met. A mount that nobody told is tried with its plane
# kept: the plane has an assumption of its own.
_CHOICES: Mapping[str, tuple[Value, ...]] = MappingProxyType(
    {
        "/arrays/*/count": (2,),
        "/arrays/*/joined": ("series", "parallel"),
        "/arrays/*/mount": ("hung_on_rail", "wall", "flat_roof", "ground_frame"),
        "/arrays/*/orientation": ("upright", "lengthwise"),
        "/arrays/*/panel/half_cells": (True, False),
        "/arrays/*/side_walls/*/side": ("left", "right"),
        "/arrays/*/shade/*/edge": ("soft", "hard"),
        "/arrays/*/panel/cell_kind": ("mono", "poly", "topcon", "hjt"),
        "/inverter/efficiency_weighting": ("european", "californian"),
    }
)
# The size of a panel counts where something casts its edge of shadow across the cells.
_SIZES = frozenset({"/arrays/*/panel/length_mm", "/arrays/*/panel/width_mm"})
# Inverters turned down to an older cap are common: 600 of 800 W (from memory).
_TURNED_DOWN_SHARE = 0.75
# What the year hangs on, or on what it was settled by, with nothing written down about how far it may be off.
_NO_RANGE = (
    "/site/elevation_m", "/site/time_zone", "/arrays/*/input", "/arrays/*/skyline", "/arrays/*/side_walls",
    "/arrays/*/shade", "/arrays/*/mismatch_share", "/arrays/*/plane", "/inverter/input_count",
    "/inverter/inputs/*/tracking_max_v", "/arrays/*/cover/material",
)  # fmt: skip
# What moves no year itself, but was the measure of others where nobody told them.
HANGS_ON: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "/inverter/inputs/*/max_input_voltage_v": ("tracking_min_v", "tracking_max_v", "start_voltage_v"),
        "/inverter/inputs/*/max_short_circuit_current_a": ("max_current_a",),
    }
)


def alternatives(setup: Setup, assumption: Assumption, assumptions: Assumptions) -> tuple[Value, ...]:
    """Values that the assumption might have instead and that could move the year's energy; none where there are none.

    The ends of a range that energy depends on, or that others depend on that nobody told (``HANGS_ON``); else the other
    words of a choice. The home's use counts only where it decides what an export limit lets through, the rate of ageing
    only where a panel has an age.
    """
    pattern, value = pattern_of(assumption.pointer), assumption.value
    measures = pattern in HANGS_ON  # whether a value was taken for it or none
    if not (measures or isinstance(value, str | int | float)) or (isinstance(value, bool) and pattern not in _CHOICES):
        return ()
    if pattern == "/arrays/*/joined" and value_at(setup, assumption.pointer.removesuffix("joined") + "count") == 1:
        return ()
    if pattern == "/inverter/set_limit_w" and isinstance(value, int | float):
        return (_TURNED_DOWN_SHARE * value,)
    if pattern in _CHOICES:
        return tuple(one for one in _CHOICES[pattern] if one != value)
    if assumption.low is None or assumption.high is None or not _counts(setup, assumption, assumptions):
        return ()
    return tuple(sorted({end for end in (assumption.low, assumption.high) if end != value}))


def why_unmoved(setup: Setup, assumption: Assumption, assumptions: Assumptions) -> str | None:
    """The reason code of an assumption for which no figure is computed: no_range or does_not_move_the_year; else None.

    An assumption whose range has no width moves nothing.
    """
    if alternatives(setup, assumption, assumptions):
        return None
    pattern = pattern_of(assumption.pointer)
    within = any(pattern == one or pattern.startswith(f"{one}/") for one in _NO_RANGE)
    open_value = assumption.low is None and (within or row_for(assumption.pointer, assumption.code).moves_energy)
    return "no_range" if open_value else "does_not_move_the_year"


def _counts(setup: Setup, assumption: Assumption, assumptions: Assumptions) -> bool:
    beside, hanging = assumption.pointer.rpartition("/")[0], HANGS_ON.get(pattern_of(assumption.pointer))
    if hanging is not None:
        return any(f"{beside}/{name}" in assumptions.by_pointer for name in hanging)
    if assumption.pointer == "/money/ageing_share_per_year":
        return any(array.panel.age_years > 0 for array in setup.arrays)
    if pattern_of(assumption.pointer) in _SIZES:
        return has_edges(value_at(setup, assumption.pointer.partition("/panel")[0]))
    if assumption.pointer.startswith("/household/"):
        return setup.inverter.export_limit_w is not None
    return row_for(assumption.pointer, assumption.code).moves_energy
