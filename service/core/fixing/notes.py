"""What else about holding a panel should somebody mind: the capacity stated, glass over people, railing, carrying?

Codes and figures; none of them is a verdict, and their absence says nothing.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import radians, sin, sqrt
from types import MappingProxyType

from service.core.model.band import Band
from service.core.model.facts import Array
from service.core.model.finding import Fact
from service.core.model.fixing import Fixing
from service.core.model.place import Site

# EN 1990:2002, table A1.2(B): partial factor of a variable load, from memory.
DESIGN_FACTOR = 1.5
# Manual handling: one person up to about here, from memory of HSE INDG143 (16 to 25 kg at waist height).
TWO_CARRY_FROM_KG = 18.0
# A fresh breeze, in which somebody might still think of fitting (lower end of Beaufort 5), on an upright board.
BREEZE_M_PER_S = 8.0
_BREEZE_PA = 0.5 * 1.25 * BREEZE_M_PER_S**2
_BOARD = 1.2
_OVER_PEOPLE = frozenset({"hung_on_rail", "behind_rail", "balcony_floor", "wall", "flat_roof", "sloped_roof"})
_AT_RAILING = frozenset({"hung_on_rail", "behind_rail"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One thing to mind; ``facts`` fill the sentence, ``variant`` among them chooses it."""

    code: str
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


def notes_of(array: Array, site: Site, fixing: Fixing, *, railing_said: bool) -> tuple[Note, ...]:
    """The notes on glass over people, the railing's size and carrying, in this order.

    ``railing_said``: was the railing's height given, or is it a usual one?
    """
    found: list[Note] = []
    panel = array.panel
    if site.people_below and array.mount in _OVER_PEOPLE:
        falls = array.height_above_ground_m
        found.append(
            _note("glass_over_people", variant=panel.glass, falls_m=falls, weight_kg=panel.weight_kg,
                  arrives_km_per_h=round(3.6 * sqrt(2 * 9.81 * falls)))
        )  # fmt: skip
    if array.mount in _AT_RAILING:
        found += _railing(array, fixing, said=railing_said)
    area = panel.length_mm * panel.width_mm / 1e6
    found.append(
        _note("carrying", variant="two" if panel.weight_kg >= TWO_CARRY_FROM_KG else "", weight_kg=panel.weight_kg,
              area_m2=round(area, 2), breeze_m_per_s=BREEZE_M_PER_S, breeze_n=round(_BOARD * _BREEZE_PA * area, -1))
    )  # fmt: skip
    return tuple(found)


def capacity_note(used: Band, capacity_n: float) -> Note:
    """The stated capacity beside the load: under it, within its spread, or above it even with the design factor."""
    cautious, middle = used.cautious or 0.0, used.middle or 0.0
    code = "capacity_under_load" if middle > 1 else "capacity_within_spread"
    if cautious * DESIGN_FACTOR <= 1:
        code = "capacity_above_load"
    return _note(code, capacity_n=capacity_n, design_factor=DESIGN_FACTOR,
                 middle_n=round(middle * capacity_n, -1), cautious_n=round(cautious * capacity_n, -1))  # fmt: skip


def ballast_note(needed_kg: Band, given_kg: float) -> Note:
    """The weights said to lie on one panel's frame beside those that would keep it from sliding and lifting."""
    cautious, middle = needed_kg.cautious or 0.0, needed_kg.middle or 0.0
    code = "ballast_short" if given_kg < middle else "ballast_within_spread" if given_kg < cautious else "ballast_above"
    return _note(code, given_kg=given_kg, middle_kg=round(middle), cautious_kg=round(cautious))


def _railing(array: Array, fixing: Fixing, *, said: bool) -> list[Note]:
    """Does the panel reach past the railing, above or below, or are the panels wider than it?"""
    found = []
    panel = array.panel
    upright = array.orientation == "upright"
    across_mm, side_mm = (panel.width_mm, panel.length_mm) if upright else (panel.length_mm, panel.width_mm)
    tall_m = side_mm / 1000 * sin(radians(array.plane.tilt_deg))
    if fixing.railing_height_m is not None and tall_m > fixing.railing_height_m:
        found.append(_note("reaches_past_railing", variant="" if said else "usual", tall_m=round(tall_m, 2),
                           railing_height_m=fixing.railing_height_m,
                           past_m=round(tall_m - fixing.railing_height_m, 2)))  # fmt: skip
    wide_m = array.count * across_mm / 1000
    if fixing.railing_length_m is not None and wide_m > fixing.railing_length_m:
        found.append(_note("wider_than_railing", variant="one" if array.count == 1 else "", wide_m=round(wide_m, 2),
                           railing_length_m=fixing.railing_length_m, count=array.count))  # fmt: skip
    return found


def _note(code: str, **facts: Fact) -> Note:
    return Note(code=code, facts=MappingProxyType(facts))
