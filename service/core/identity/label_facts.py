"""Which facts follow from a label's claims, and what in them is hard to believe?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, cast

from service.core.identity.facts import IMP, ISC, POINTS, VMP, VOC, PanelFacts
from service.core.identity.label_claim import ELECTRIC, Claim
from service.core.identity.listed import CODE_POWER_SHARE, by_code, listed_power_of
from service.core.model.bounds import BOUNDS, Bounds
from service.core.model.panel_list import PanelList
from service.core.panel.datasheet import CELL_VOLTAGE_V, POWER_PRODUCT_SHARE

FILL_FACTOR = (0.65, 0.85)
SAME_SHARE = 0.01
SAME_POWER_SHARE = 0.002  # models of one sheet differ by 5 W
_COEFFICIENTS = {"voc_coefficient": VOC, "isc_coefficient": ISC, "power_coefficient": "rated_power_w"}
_THIN_FILM = frozenset({"cdte", "cigs", "amorphous"})
# What else a label says of a panel, beside what the identity is asked by.
ALSO_READ = ("max_system_voltage_v", "max_series_fuse_a", "weight_kg")


@dataclass(frozen=True, slots=True, kw_only=True)
class IdentityDoubt:
    """What does not hang together: ``what`` it is about, the figure, and the band in which it should lie.

    Codes: not_at_stc, unclear_which, illegible_figure, limit_not_rating, not_the_panels, not_a_rating, several_models,
    column_taken (``measured`` of ``high``), said_twice, out_of_bounds, differs_from_request, voltages_swapped,
    currents_swapped, power_product, fill_factor, voltage_per_cell, half_cells_counted, code_power, code_not_listed,
    nothing_agrees, nothing_read.
    """

    code: str
    what: str
    measured: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelRead:
    """Facts of the request with those of the label, the names that the label gave, and the doubts.

    ``also`` holds what else the label says of the panel, by the names of a panel's fields.
    """

    facts: PanelFacts
    read: frozenset[str]
    also: Mapping[str, float | tuple[float, float]]
    doubts: tuple[IdentityDoubt, ...]


def with_label(facts: PanelFacts, claims: Sequence[Claim]) -> LabelRead:
    """Facts of a request with what a label claims; what the request states itself stands, a difference is doubted."""
    of_panel, doubts = _of_one_model(facts, claims)
    chosen, more = _chosen(of_panel)
    doubts += more
    found: dict[str, float | str] = {claim.what: claim.value for claim in chosen}
    power = facts.rated_power_w or _number(found.get("rated_power_w"))
    names = {f.name for f in fields(PanelFacts)}
    values = {name: value for name, value in found.items() if name in names}
    references = {**{k: v for k, v in values.items() if isinstance(v, float)}, **_said(facts), "rated_power_w": power}
    values |= _coefficients(chosen, references)
    if "cells_visible" in values:
        values["cells_visible"] = int(values["cells_visible"])
    good = {name: value for name, value in values.items() if _within(name, value)}
    doubts += [
        IdentityDoubt(code="out_of_bounds", what=name, measured=_number(value), low=_bounds(name).low,
                      high=_bounds(name).high, unit=_bounds(name).unit)
        for name, value in values.items() if name not in good
    ]  # fmt: skip
    doubts += _differing(facts, good)
    read = {name: value for name, value in good.items() if getattr(facts, name) is None}
    also: dict[str, float | tuple[float, float]] = {
        name: value for name in ALSO_READ if (value := _number(found.get(name))) and _within(name, value)
    }
    return LabelRead(
        facts=replace(facts, **cast("dict[str, Any]", read)),
        read=frozenset(read),
        also={**also, **_tolerance(chosen, power)},
        doubts=tuple(doubts),
    )


def without_points(label: LabelRead) -> LabelRead:
    """The same label without the voltages and currents that were read off it."""
    dropped = label.read & set(POINTS)
    facts = replace(label.facts, **cast("dict[str, Any]", dict.fromkeys(dropped)))
    return replace(label, facts=facts, read=label.read - dropped)


def sheet_doubts(facts: PanelFacts) -> tuple[IdentityDoubt, ...]:
    """What in the given and read ratings does not hang together; swapped ones are told alone."""
    voc, isc, vmp, imp = (facts.rating(name) for name in (VOC, ISC, VMP, IMP))
    if voc is not None and vmp is not None and vmp >= voc:
        return (IdentityDoubt(code="voltages_swapped", what=VMP, measured=vmp, low=0.0, high=voc, unit="V"),)
    if isc is not None and imp is not None and imp >= isc:
        return (IdentityDoubt(code="currents_swapped", what=IMP, measured=imp, low=0.0, high=isc, unit="A"),)
    return (*_of_power(facts), *_of_cells(facts))


def code_doubts(facts: PanelFacts, table: PanelList) -> tuple[IdentityDoubt, ...]:
    """Is the code not listed, or listed with another power?"""
    if facts.model_code is None or by_code(facts, table) is not None:
        return ()
    listed_w = listed_power_of(facts.model_code, table)
    if listed_w is None or facts.rated_power_w is None or abs(listed_w / facts.rated_power_w - 1) <= CODE_POWER_SHARE:
        return (IdentityDoubt(code="code_not_listed", what="model_code"),)
    return (IdentityDoubt(code="code_power", what="model_code", measured=listed_w, unit="W"),)


def _of_power(facts: PanelFacts) -> Iterable[IdentityDoubt]:
    voc, isc, vmp, imp = (facts.rating(name) for name in (VOC, ISC, VMP, IMP))
    product = vmp * imp if vmp is not None and imp is not None else None
    rated = facts.rated_power_w
    if product is not None and rated is not None and abs(product / rated - 1) > POWER_PRODUCT_SHARE:
        yield IdentityDoubt(code="power_product", what="rated_power_w", measured=product, unit="W",
                            low=rated * (1 - POWER_PRODUCT_SHARE), high=rated * (1 + POWER_PRODUCT_SHARE))  # fmt: skip
    power = rated if rated is not None else product
    if voc is not None and isc is not None and power is not None:
        fill, (low, high) = power / (voc * isc), FILL_FACTOR
        if not low <= fill <= high:
            yield IdentityDoubt(code="fill_factor", what="rated_power_w", measured=fill, low=low, high=high)


def _of_cells(facts: PanelFacts) -> Iterable[IdentityDoubt]:
    voc, counts, (low, high) = facts.open_circuit_voltage_v, facts.cell_counts, CELL_VOLTAGE_V
    if voc is None or counts is None or facts.cell_kind in _THIN_FILM:
        return
    if not any(low <= voc / cells <= high for cells in counts):
        halves = facts.cells_in_series is not None and low <= 2 * voc / facts.cells_in_series <= high
        cells = max(counts)
        yield IdentityDoubt(
            code="half_cells_counted" if halves else "voltage_per_cell", what="cells_in_series" if halves else VOC,
            measured=voc / cells, low=low, high=high, unit="V",
        )  # fmt: skip


def _chosen(claims: Sequence[Claim]) -> tuple[list[Claim], list[IdentityDoubt]]:
    """One claim of each thing: named before those known by unit alone; none where names disagree on an electric one."""
    first: dict[str, Claim] = {}
    doubts: dict[tuple[str, str], IdentityDoubt] = {}
    for claim in sorted(claims, key=lambda one: not one.named):
        if claim.doubt:
            doubts.setdefault((claim.doubt, claim.what), _doubt(claim.doubt, claim))
            continue
        known = first.setdefault(claim.what, claim)
        if known.value != claim.value and claim.named and _apart(known.value, claim.value):
            doubts.setdefault(("said_twice", claim.what), _doubt("said_twice", claim))
    twice = {what for code, what in doubts if code == "said_twice"} & ELECTRIC
    return [claim for what, claim in first.items() if what not in twice], list(doubts.values())


def _of_one_model(facts: PanelFacts, claims: Sequence[Claim]) -> tuple[list[Claim], list[IdentityDoubt]]:
    """The claims without those of other models, where the sheet has several; all columns go where none can be told."""
    columns = max((claim.columns for claim in claims), default=1)
    if columns == 1:
        return list(claims), []
    column = _column(facts, claims, columns)
    kept = [c for c in claims if c.columns == 1 or (c.columns == columns and c.column == column)]
    doubt = (
        IdentityDoubt(code="several_models", what="rated_power_w", measured=float(columns))
        if column is None
        else IdentityDoubt(code="column_taken", what="rated_power_w", measured=float(column), high=float(columns))
    )
    return kept, [doubt]


def _column(facts: PanelFacts, claims: Sequence[Claim], columns: int) -> int | None:
    """The one column with the model code or the rated power of the request; None where none or several have it."""
    wanted = {"model_code": facts.model_code, "rated_power_w": facts.rated_power_w}
    for what, value in wanted.items():
        found = {
            claim.column for claim in claims
            if claim.columns == columns and claim.what == what and not claim.doubt and _same(claim.value, value)
        }  # fmt: skip
        if len(found) == 1:
            return found.pop()
    return None


def _same(said: float | str, wanted: float | str | None) -> bool:
    if isinstance(said, str) or isinstance(wanted, str):
        return str(said).casefold() == str(wanted).casefold()
    return wanted is not None and abs(said - wanted) <= SAME_POWER_SHARE * wanted


def _doubt(code: str, claim: Claim) -> IdentityDoubt:
    return IdentityDoubt(code=code, what=claim.what, measured=_number(claim.value), unit=claim.unit)


def _apart(first: float | str, second: float | str) -> bool:
    if isinstance(first, str) or isinstance(second, str):
        return first != second
    return abs(first - second) > SAME_SHARE * max(abs(first), abs(second))


def _number(value: float | str | None) -> float | None:
    return None if value is None or isinstance(value, str) else float(value)


def _said(facts: PanelFacts) -> dict[str, float]:
    return {f.name: value for f in fields(facts) if isinstance(value := getattr(facts, f.name), int | float)}


def _coefficients(chosen: Sequence[Claim], references: Mapping[str, float | None]) -> dict[str, float | str]:
    """Coefficients in % per K; those in volts, amperes or watts only where what they belong to is known."""
    found: dict[str, float | str] = {}
    for claim in chosen:
        if claim.what in _COEFFICIENTS and not isinstance(claim.value, str):
            reference = references.get(_COEFFICIENTS[claim.what])
            if claim.unit == "%/K":
                found[f"{claim.what}_pct_per_k"] = claim.value
            elif reference:
                found[f"{claim.what}_pct_per_k"] = 100 * claim.value / reference
    return found


def _within(name: str, value: float | str) -> bool:
    if isinstance(value, str):
        return True
    return _bounds(name).low <= value <= _bounds(name).high


def _bounds(name: str) -> Bounds:
    return BOUNDS[name]


def _differing(facts: PanelFacts, read: Mapping[str, float | str]) -> list[IdentityDoubt]:
    doubts = []
    for name, value in read.items():
        given = getattr(facts, name)
        if given is not None and not isinstance(value, str) and _apart(float(given), value):
            doubts.append(IdentityDoubt(code="differs_from_request", what=name, measured=float(value), low=float(given),
                                        high=float(given), unit=_bounds(name).unit))  # fmt: skip
    return doubts


def _tolerance(chosen: Sequence[Claim], power: float | None) -> dict[str, tuple[float, float]]:
    """Least and most in per cent of the rated power; from watts only where that is known."""
    ends = {claim.what: claim for claim in chosen if claim.what.startswith("power_tolerance")}
    values = []
    for name in ("power_tolerance_low", "power_tolerance_high"):
        claim = ends.get(name)
        value = None if claim is None else _number(claim.value)
        if claim is None or value is None or (claim.unit == "W" and not power):
            return {}
        values.append(round(100 * value / power, 2) if claim.unit == "W" and power else value)
    if not all(_within("power_tolerance_pct", value) for value in values):
        return {}
    return {"power_tolerance_pct": (values[0], values[1])}
