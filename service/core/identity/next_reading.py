"""What should be read next on the label, or measured on the panel? First what narrows the ratings most.

For each open question the share is told by which its answer narrows the ranges of Voc and Isc, the two ratings that
decide about harm: the mean over the candidates, by their sureness, if each in turn were the panel. An answer leaves the
candidates that agree with it; a rating that is read has no range left itself, and Vmp or Imp tie Voc and Isc through
ratios that hardly spread. Ratings that no range tells come last: without them a check stays not known.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from service.core.identity.candidate import Candidate, Range
from service.core.identity.facts import IMP, ISC, VMP, VOC, PanelFacts
from service.core.identity.identify import Identified, hull

LEAST_SHARE = 0.01
_POINT_SHARE = 0.03  # a printed rating is as near as that
_FILL_WIDTH = 0.10  # what Voc leaves of Isc through power and fill factor, and Isc of Voc, as relative width
_RATIO_WIDTH = 0.07  # what Vmp leaves of Voc, and Imp of Isc, as relative width
_VERDICT_ONLY = ("max_series_fuse_a", "max_system_voltage_v")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A thing to read or count: ``what`` is the field to send it in, ``narrows_share`` what is gained by it."""

    what: str
    narrows_share: float


def read_next(
    facts: PanelFacts, identified: Identified, also_known: frozenset[str] = frozenset()
) -> tuple[Reading, ...]:
    """Open questions, the most telling first; the power alone where nothing can be said without it."""
    if facts.rated_power_w is None:
        return (Reading(what="rated_power_w", narrows_share=1.0),)
    gains = {what: _gain(identified, what) for what in _open_questions(facts)}
    told = [Reading(what=what, narrows_share=gain) for what, gain in gains.items() if gain >= LEAST_SHARE]
    told.sort(key=lambda one: -one.narrows_share)
    code = [Reading(what="model_code", narrows_share=0.0)] if facts.model_code is None else []
    rest = [Reading(what=what, narrows_share=0.0) for what in _VERDICT_ONLY if what not in also_known]
    return (*told, *code, *rest)


def _open_questions(facts: PanelFacts) -> list[str]:
    points = [name for name in (VOC, ISC, VMP, IMP) if facts.rating(name) is None]
    cells = ["cells_visible"] if facts.cell_counts is None else []
    return [*points, *cells, *(["length_mm"] if facts.area_m2 is None else [])]


def _gain(identified: Identified, what: str) -> float:
    """By what share the two ranges get narrower once this is answered; 0 where there is nothing to narrow."""
    pairs = [(one, share) for one, share in identified.candidates if one.found_in != "label"]
    total = sum(share for _, share in pairs)
    whole = _widths(identified.ranges, "") if identified.ranges else 0.0
    if total <= 0 or whole <= 0:
        return 0.0
    left = 0.0
    for truth, share in pairs:
        rest = [one for one, _ in pairs if _agrees(one, truth, what)]
        left += share / total * _widths(hull(rest), what)
    return max(0.0, 1 - left / whole)


def _agrees(one: Candidate, truth: Candidate, what: str) -> bool:
    """Would this candidate stay if the answer were that of the other?"""
    if what == "cells_visible":
        return one.cells_in_series == truth.cells_in_series
    if what == "length_mm":
        return (one.cells_in_series, one.cell) == (truth.cells_in_series, truth.cell)
    value, reach = truth.ranges[what].likely, one.ranges[what]
    return (1 - _POINT_SHARE) * reach.low <= value <= (1 + _POINT_SHARE) * reach.high


def _widths(ranges: Mapping[str, Range], read: str) -> float:
    """Relative widths of both ranges together, once ``read`` is known."""
    widths = {name: (ranges[name].high - ranges[name].low) / ranges[name].likely for name in (VOC, ISC)}
    if read in widths:
        widths = {name: 0.0 if name == read else min(width, _FILL_WIDTH) for name, width in widths.items()}
    if read in {VMP, IMP}:
        widths = {name: min(width, _RATIO_WIDTH) for name, width in widths.items()}
    return sum(widths.values())
