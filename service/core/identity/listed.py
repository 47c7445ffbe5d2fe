"""Which listed panels agree with the facts, and how far do their ratings reach?

The list is split by cells in series. In each part the range of a rating reaches from the least to the greatest of the
agreeing rows (atypical ones are left out beforehand, see ``typical``), a margin wider. Since a further fact can only
leave fewer rows, it never widens a range. Where the rows that agree with all facts are too few to tell a range, the
ranges that every smaller set of facts leaves are cut with each other, which keeps that promise.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import combinations

import numpy as np

from service.core.identity.candidate import Candidate, Range
from service.core.identity.classes import FORMATS
from service.core.identity.codes import rows_of_code
from service.core.identity.facts import POINTS, RATINGS, PanelFacts
from service.core.model.hours import Floats
from service.core.model.panel_list import LISTED_KINDS, Mask, PanelList, Rows

LAST_YEAR = 2019  # the list's edition; a panel can have been sold for some years after it was listed
SOLD_UNTIL = LAST_YEAR + 3

# How far a row may differ from the facts and still agree with them.
POWER_SHARE = 0.015  # steps of a label are 5 W, of some makes 1 W
WIDE_POWER_SHARE = 0.06  # where too few are that near; their ratings are then moved to the power
SIZE_SHARE = 0.012  # frames of one format, and a tape measure
POINT_SHARE = 0.03  # rounding and tolerance of a label
CODE_POWER_SHARE = 0.025
AREA_SLACK = 0.12  # beyond the smallest and largest of a part: another panel

FEWEST_ROWS = 5  # of a part near a power
FEWEST_AGREEING = 20  # with further facts: the ends of fewer rows say little of the next maker's panel
# Added to both ends. Chosen, with the share of typical rows and the fewest rows, so that panels of left-out makers are
# held (`bench identity`), with a reserve of 1.4 on the margins: the settings were chosen on the parts that judge them.
MARGIN_SHARE = 0.02
WIDE_MARGIN_SHARE = 0.035
COEFFICIENT_MARGIN_PCT_PER_K = 0.005
VOLTAGE_EXPONENT = 0.25  # of two panels alike but for their power: voltage goes with P^0.25, current with the rest

ROWS_A_SHARE = 600.0  # entries within POWER_SHARE that weigh as much as a class of share 1
_SIZE_SD = 0.025
_KINDS = {"topcon": {"mono"}, "hjt": {"mono"}, "back_contact": {"mono"}, "cdte": {"cdte", "thin_film"},
          "cigs": {"cigs", "thin_film"}, "amorphous": {"thin_film"}}  # fmt: skip


def listed(facts: PanelFacts, table: PanelList) -> tuple[Candidate, ...]:
    """A candidate for each count of cells in series that agrees; none without a power, or where it is newer."""
    power = facts.rated_power_w
    if power is None or (facts.built is not None and facts.built > SOLD_UNTIL):
        return ()
    near = np.arange(len(table))[table.powers_between((1 - WIDE_POWER_SHARE) * power, (1 + WIDE_POWER_SHARE) * power)]
    near = near[table.typical[near]]
    wanted = facts.cell_counts
    found = []
    for cells in sorted(set(table.cells_in_series[near].tolist())):
        if wanted is None or cells in wanted:
            rows = near[table.cells_in_series[near] == cells]
            candidate = _of_rows(facts, power, rows, table)
            if candidate is not None:
                found.append(candidate)
    return tuple(found)


def counts_listed(power_w: float, table: PanelList) -> Mapping[int, int]:
    """Counts of cells in series of which the list has enough rows near this power, whatever else is known: entries."""
    near = table.powers_between((1 - WIDE_POWER_SHARE) * power_w, (1 + WIDE_POWER_SHARE) * power_w)
    typical = table.typical[near]
    cells, listings = table.cells_in_series[near][typical], table.listings[near][typical]
    rows, entries = np.bincount(cells), np.bincount(cells, weights=listings)
    return {int(n): int(entries[n]) for n in np.flatnonzero(rows >= FEWEST_ROWS)}


@lru_cache(maxsize=64)  # the arrays of a set mostly hold one panel
def by_code(facts: PanelFacts, table: PanelList) -> Candidate | None:
    """What the list has under the model code, where power and size do not speak against it; None where nothing."""
    if facts.model_code is None:
        return None
    rows = rows_of_code(facts.model_code, table)
    if facts.rated_power_w is not None:
        rows = rows[np.abs(table.rated_power_w[rows] / facts.rated_power_w - 1) <= CODE_POWER_SHARE]
    if facts.cell_counts is not None:
        rows = rows[np.isin(table.cells_in_series[rows], list(facts.cell_counts))]
    columns = {name: getattr(table, name)[rows] for name in RATINGS}
    agrees = _all_of(_masks(facts, rows, columns, table), len(rows))
    rows, columns = rows[agrees], {name: column[agrees] for name, column in columns.items()}
    if not len(rows):
        return None
    return _candidate(facts, rows, table, _ends(columns, MARGIN_SHARE), columns, weight=1.0, coded=True)


def listed_power_of(code: str, table: PanelList) -> float | None:
    """The rated power that the list has under a model code; None where it has none, or several."""
    powers = np.unique(table.rated_power_w[rows_of_code(code, table)])
    return float(powers[0]) if len(powers) == 1 else None


Columns = Mapping[str, Floats]
Ends = dict[str, tuple[float, float]]


def _of_rows(facts: PanelFacts, power: float, rows: Rows, table: PanelList) -> Candidate | None:
    """One part of the list; None where it is too thin, or where the facts exclude it."""
    strict = rows[np.abs(table.rated_power_w[rows] / power - 1) <= POWER_SHARE]
    thin = len(strict) < FEWEST_ROWS
    base = rows if thin else strict
    if len(base) < FEWEST_ROWS or not _area_possible(facts, base, table):
        return None
    columns, margin = _moved(base, power, table), WIDE_MARGIN_SHARE if thin else MARGIN_SHARE
    whole = _ends(columns, margin)
    if any(given is not None and not _near(given, *whole[name]) for name, given in _given(facts).items()):
        return None
    masks = _masks(facts, base, columns, table)
    every = _all_of(masks, len(base))
    if every.sum() >= FEWEST_AGREEING:
        base, columns = base[every], {name: column[every] for name, column in columns.items()}
        ends = _ends(columns, margin)
    else:
        ends = whole
        for some in _subsets(masks):
            mask = _all_of(some, len(base))
            if mask.sum() >= FEWEST_AGREEING:
                ends = _cut(ends, _ends({name: column[mask] for name, column in columns.items()}, margin))
    if any(low > high for low, high in ends.values()):
        return None
    common = max(
        float(table.listings[strict].sum()) / ROWS_A_SHARE, _share_of(int(table.cells_in_series[rows[0]]), power)
    )
    weight = common * float(np.mean(_size_likeness(facts, base, table)))
    return _candidate(facts, base, table, ends, columns, weight=weight)


def _share_of(cells: int, power: float) -> float:
    """The share of the commonest build of the trade with so many cells of the list's sizes; 0 where there is none."""
    shares = [
        one.share
        for one in FORMATS
        if one.cells_in_series == cells and one.power_w[0] <= power <= one.power_w[1] and not one.newer_than_list
    ]
    return max(shares, default=0.0)


def _given(facts: PanelFacts) -> Mapping[str, float | None]:
    return {name: facts.rating(name) for name in POINTS}


def _near(given: float, low: float, high: float) -> bool:
    return (1 - POINT_SHARE) * low <= given <= (1 + POINT_SHARE) * high


def _moved(rows: Rows, power: float, table: PanelList) -> Columns:
    """The ratings of rows as if their power were this one."""
    ratio = power / table.rated_power_w[rows]
    volts, amperes = ratio**VOLTAGE_EXPONENT, ratio ** (1 - VOLTAGE_EXPONENT)
    factors = {name: volts if name.endswith("_v") else amperes for name in POINTS}
    return {name: getattr(table, name)[rows] * factors.get(name, 1.0) for name in RATINGS}


def _masks(facts: PanelFacts, rows: Rows, columns: Columns, table: PanelList) -> list[Mask]:
    """One mask a fact: which rows agree with it. A row without a size agrees with none."""
    masks: list[Mask] = []
    if facts.cell_kind is not None:
        kinds = [LISTED_KINDS.index(kind) for kind in _KINDS.get(facts.cell_kind, {facts.cell_kind})]
        masks.append(np.isin(table.kind[rows], kinds))
    for side, given in (("length_mm", facts.length_mm), ("width_mm", facts.width_mm)):
        if given is not None:
            masks.append(np.abs(getattr(table, side)[rows] / given - 1) <= SIZE_SHARE)
    for name, given in _given(facts).items():
        if given is not None:
            masks.append(np.abs(columns[name] / given - 1) <= POINT_SHARE)
    return masks


def _all_of(masks: list[Mask], length: int) -> Mask:
    return np.logical_and.reduce(masks) if masks else np.ones(length, dtype=np.bool_)


def _subsets(masks: list[Mask]) -> Iterator[list[Mask]]:
    for size in range(1, len(masks) + 1):
        for some in combinations(masks, size):
            yield list(some)


def _ends(columns: Columns, margin: float) -> Ends:
    ends: Ends = {}
    for name, column in columns.items():
        low, high = (float(column.min()), float(column.max())) if len(column) else (np.inf, -np.inf)
        if name in POINTS:
            ends[name] = low * (1 - margin), high * (1 + margin)
        else:
            ends[name] = low - COEFFICIENT_MARGIN_PCT_PER_K, high + COEFFICIENT_MARGIN_PCT_PER_K
    return ends


def _cut(first: Ends, second: Ends) -> Ends:
    return {name: (max(low, second[name][0]), min(high, second[name][1])) for name, (low, high) in first.items()}


def _area_possible(facts: PanelFacts, rows: Rows, table: PanelList) -> bool:
    """Does the area lie among those of the part, or near? Rows without a size say nothing."""
    area = facts.area_m2
    areas = table.length_mm[rows] * table.width_mm[rows] / 1e6
    areas = areas[np.isfinite(areas)]
    if area is None or not len(areas):
        return True
    return bool((1 - AREA_SLACK) * areas.min() <= area <= (1 + AREA_SLACK) * areas.max())


def _size_likeness(facts: PanelFacts, rows: Rows, table: PanelList) -> Floats:
    if facts.area_m2 is None:
        return np.ones(len(rows))
    areas = table.length_mm[rows] * table.width_mm[rows] / 1e6
    off = np.where(np.isfinite(areas), areas, facts.area_m2 * (1 + 2 * _SIZE_SD)) / facts.area_m2 - 1
    return np.exp(-0.5 * (off / _SIZE_SD) ** 2)


def _candidate(
    facts: PanelFacts, rows: Rows, table: PanelList, ends: Ends, columns: Columns, *, weight: float,
    coded: bool = False,
) -> Candidate:  # fmt: skip
    entries = int(table.listings[rows].sum())
    ranges = {}
    for name, (low, high) in ends.items():
        likely = float(np.sort(columns[name])[len(rows) // 2])
        ranges[name] = Range(low=low, likely=min(max(likely, low), high), high=high, source="public_list",
                             entries=entries)  # fmt: skip
    kinds, cells = set(table.kind[rows].tolist()), set(table.cells_in_series[rows].tolist())
    listed_kind = LISTED_KINDS[min(kinds)] if len(kinds) == 1 else None
    return Candidate(
        found_in="public_list",
        cells_in_series=min(cells) if len(cells) == 1 else None,
        cell="",
        rated_power_w=facts.rated_power_w or float(np.sort(table.rated_power_w[rows])[len(rows) // 2]),
        cell_kind=facts.cell_kind or (listed_kind if listed_kind in {"mono", "poly", "cdte", "cigs"} else None),
        ranges=ranges,
        weight=weight,
        entries=entries,
        makers=len(set(table.maker[rows].tolist())),
        by_code=coded,
    )
