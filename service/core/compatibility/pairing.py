"""Do the panels suit the input and each other in power, kind and number? Are connectors and datasheet sound?"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from service.core.compatibility.curve_spread import SHAPES, moved, throughout
from service.core.compatibility.finding import made
from service.core.compatibility.one_string import unlike_in_string
from service.core.compatibility.question import InputLimits, Question
from service.core.compatibility.reach import Outcome, Reach, at_most, combined
from service.core.compatibility.wiring import FULL_SUN_W_PER_M2, Strings, Wiring
from service.core.model.facts import Input, Panel, Setup
from service.core.model.finding import Fact, Finding, Part, Verdict
from service.core.panel import Branch, drawn_together, max_power

# Unlike panels side by side that lose less than this in full sun are as good as alike.
UNLIKE_LOSS_PCT = 1.0

# Which printed figures a doubt rests on: it counts only where all of them were given.
DOUBT_RESTS_ON = {
    "voltages_swapped": ("open_circuit_voltage_v", "max_power_voltage_v"),
    "currents_swapped": ("short_circuit_current_a", "max_power_current_a"),
    "half_cells_counted": ("open_circuit_voltage_v", "cells_in_series"),
    "voltage_per_cell": ("open_circuit_voltage_v", "cells_in_series"),
    # with the rated power, which is always given: where the point was filled in, it makes that power
    "fill_factor": ("open_circuit_voltage_v", "short_circuit_current_a"),
    "power_product": ("max_power_voltage_v", "max_power_current_a"),
    "voc_coefficient": ("voc_coefficient_pct_per_k",),
    "power_coefficient": ("power_coefficient_pct_per_k", "voc_coefficient_pct_per_k", "isc_coefficient_pct_per_k"),
}
MAKES_SOURCE = "IEC 62852 and IEC 62548 (from memory): both halves of one make and type, tested together"
_PRINTED = ("open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a")


def panel_power(wiring: Wiring, here: tuple[Strings, ...]) -> Question:
    """Panel watts on an input against the maker's figure: a maximum is a limit, a recommendation advice.

    Not asked where the maker names no figure: volts and amperes are the limits then. Watts above the a.c. rating are no
    question here: the surplus is not drawn.
    """
    measured = combined(
        lambda *watts: sum(watts),
        *(combined(lambda w, n=s.array.count: n * w, wiring.of_panel(s, "rated_power_w")) for s in here),
    )

    def outcome(limits: InputLimits) -> Outcome | None:
        limit, kind = limits.of("max_panel_power_w"), limits.completed.max_panel_power_kind
        if limit.value is None or limit.missing:
            return None
        found = at_most(measured, limit)
        if found.verdict != Verdict.DOES_NOT_FIT or kind == "maximum":
            return found
        if kind == "recommended":
            return Outcome(Verdict.FITS, Verdict.FITS)
        return Outcome(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT, (f"{limits.pointer}/max_panel_power_kind",))

    def told(limits: InputLimits, outcome: Outcome) -> Finding:
        limit, kind = limits.of("max_panel_power_w").value, limits.completed.max_panel_power_kind
        above = measured.value is not None and limit is not None and measured.value > limit
        facts: dict[str, Fact] = {"kind": kind, "above": above, "variant": f"{kind}_above" if above else ""}
        return made(
            "panel_power", Part.PANEL_SIDE, outcome, limits.pointer, input_number=limits.index + 1, facts=facts,
            numbers=(measured.value, limit, "W"), source="datasheet of the inverter",
        )  # fmt: skip

    return Question(outcome, told)


def unlike_panels(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> Finding | None:
    """What several arrays on one input lose by sharing one voltage; None where an input has one array only.

    Panels that look different ways lose next to nothing in parallel; unlike voltages do.
    """
    if len(here) < 2:
        return None
    missing = tuple(pointer for s in here for name in _PRINTED for pointer in wiring.of_panel(s, name).missing)
    if len(wiring.side_by_side(here)) < len(here):
        return unlike_in_string(wiring, index, here)
    alike = all(_electric(s) == _electric(here[0]) for s in here)
    lost_pct = 0.0 if alike else _lost_together_pct(wiring, here)
    likely = _by_loss(lost_pct)
    outcome = Outcome(likely if alike or not missing else Verdict.NOT_KNOWN, likely, () if alike else missing)
    if lost_pct is not None and not alike:
        outcome = throughout(outcome, lambda: _loss_reach(wiring, here), lambda loss: _by_loss(loss.value))
    facts: dict[str, Fact] = {
        "arrays": ", ".join(s.array.name for s in here),
        "alike": alike,
        "planes_differ": any(s.array.plane != here[0].array.plane for s in here),
        "variant": "alike" if alike else "",
    }
    return made(
        "unlike_panels", Part.PANEL_SIDE, outcome, f"/inverter/inputs/{index}", input_number=index + 1, facts=facts,
        numbers=(lost_pct, UNLIKE_LOSS_PCT, "%"), source="joint curve of the panels in full sun, single-diode model",
    )  # fmt: skip


def _by_loss(lost_pct: float | None) -> Verdict:
    if lost_pct is None:
        return Verdict.NOT_KNOWN
    return Verdict.FITS if lost_pct <= UNLIKE_LOSS_PCT else Verdict.FITS_WITH_LOSS


def _loss_reach(wiring: Wiring, here: tuple[Strings, ...]) -> Reach:
    """The loss over what shapes each panel's curve between its printed points, one array at a time, summed."""

    def with_panel(at: int) -> Callable[[Panel], float]:
        def lost(panel: Panel) -> float:
            own = replace(here[at], array=replace(here[at].array, panel=panel))
            return _lost_together_pct(wiring, (*here[:at], own, *here[at + 1 :])) or 0.0

        return lost

    names = tuple(name for name in SHAPES if name not in _PRINTED)
    parts = [moved(wiring, strings, with_panel(at), names) for at, strings in enumerate(here)]
    missing = tuple(pointer for part in parts for pointer in part.missing)
    ends = [(part.low, part.value, part.high) for part in parts]
    value = ends[0][1]
    if any(None in end for end in ends):
        return Reach(None, value, None, missing)
    low = (value or 0.0) + sum((low or 0.0) - (middle or 0.0) for low, middle, _ in ends)
    high = (value or 0.0) + sum((high or 0.0) - (middle or 0.0) for _, middle, high in ends)
    return Reach(low, value, high, missing)


def input_count(wiring: Wiring, used: tuple[tuple[int, Input, tuple[Strings, ...]], ...]) -> Finding:
    """Are there inputs and sockets enough for the strings? More strings than connector pairs need a branch lead."""
    short = sum(max(_side_by_side(wiring, here) - limits.connector_pairs, 0) for _, limits, here in used)
    facts: dict[str, Fact] = {
        "strings": sum(_side_by_side(wiring, here) for _, _, here in used),
        "free_inputs": len(wiring.setup.inverter.inputs) - len(used),
        "branch_leads": short,
        "variant": "branch_leads" if short else "",
    }
    # one input every inverter has; that there are more, and that each array has its own, somebody must have said
    assumed = len(used) > 1 and wiring.assumptions.assumed("/inverter/input_count")
    missing = ("/inverter/input_count",) if assumed else ()
    verdict = Verdict.NOT_KNOWN if assumed else Verdict.FITS
    return made(
        "input_count", Part.PANEL_SIDE, Outcome(verdict, Verdict.FITS, missing), "/inverter/input_count", facts=facts,
        numbers=(len(used), len(wiring.setup.inverter.inputs), ""), source="counted",
    )  # fmt: skip


def _side_by_side(wiring: Wiring, here: tuple[Strings, ...]) -> int:
    """How many strings lie in parallel on an input."""
    return sum(group[0].in_parallel for group in wiring.side_by_side(here))


def datasheet_sanity(wiring: Wiring, index: int, strings: Strings) -> Finding | None:
    """Do the printed values contradict each other? Then nothing that rests on them is known.

    Only values that were given are held against each other; None where fewer than two were.
    """
    known = {name for name in {n for names in DOUBT_RESTS_ON.values() for n in names} if _given(wiring, strings, name)}
    if len(known & set(_PRINTED)) < 2:
        return None
    doubts = [d for d in wiring.curves.doubts(strings.panel) if known.issuperset(DOUBT_RESTS_ON.get(d.code, ()))]
    verdict = Verdict.NOT_KNOWN if doubts else Verdict.FITS
    facts: dict[str, Fact] = {
        "array": strings.array.name,
        "doubts": ", ".join(d.code for d in doubts),
        "variant": doubts[0].code if doubts else "",
    }
    if doubts:
        facts |= {"low": doubts[0].low, "high": doubts[0].high}
    numbers = (doubts[0].measured, None, doubts[0].unit) if doubts else (None, None, "")
    return made(
        "datasheet_sanity", Part.PANEL_SIDE, Outcome(verdict, verdict), f"{strings.pointer}/panel",
        input_number=index + 1, facts=facts, numbers=numbers,
        source="definitions (Voc >= Vmp, Isc >= Imp) and bands of voltage a cell, fill factor and power",
    )  # fmt: skip


def connectors(wiring: Wiring, index: int, strings: Strings) -> Finding | None:
    """Are the panel's connectors of a kind that stays shut? None where their kind or make is not described.

    Older ones without a lock come apart under load, bare ends cannot be joined without tools, older locking ones
    need a matched adapter. A locking 4 mm connector is judged where the make and type of both halves are named:
    IEC 62852 tests a pair of one maker, and IEC 62548 asks for both halves of one make and type (from memory). Where
    nobody said that they lock, two makes are refused all the same, and one make settles nothing.
    """
    kind = strings.panel.connector
    if kind in ("locking_4mm", "not_known") and makes_told(wiring.setup, strings.at):
        return _makes(wiring, index, strings, locks=kind == "locking_4mm" and _given(wiring, strings, "connector"))
    verdicts = {
        "older_unlocked": Verdict.DOES_NOT_FIT, "bare": Verdict.DOES_NOT_FIT, "older_locking": Verdict.NOT_KNOWN,
    }  # fmt: skip
    if kind not in verdicts or not _given(wiring, strings, "connector"):
        return None
    outcome = Outcome(verdicts[kind], verdicts[kind])
    return made(
        "connectors", Part.PANEL_SIDE, outcome, f"{strings.pointer}/panel/connector", input_number=index + 1,
        facts={"connector": kind, "array": strings.array.name, "variant": kind},
        source="IEC 62852 and NEC 690.33: locking connectors, both halves of one type and make",
    )  # fmt: skip


def makes_told(setup: Setup, at: int) -> bool:
    """Are the makes of both halves named, the panel's and the inverter's?"""
    return bool(setup.arrays[at].panel.connector_make and setup.inverter.connector_make)


def _makes(wiring: Wiring, index: int, strings: Strings, *, locks: bool) -> Finding | None:
    theirs, ours = wiring.setup.inverter.connector_make or "", strings.panel.connector_make or ""
    same = _plain(theirs) == _plain(ours)
    if same and not locks:
        return None
    verdict = Verdict.FITS if same else Verdict.DOES_NOT_FIT
    return made(
        "connectors", Part.PANEL_SIDE, Outcome(verdict, verdict), f"{strings.pointer}/panel/connector_make",
        input_number=index + 1, source=MAKES_SOURCE,
        facts={"array": strings.array.name, "make": ours, "inverter_make": theirs, "locks": locks,
               "variant": "same_make" if same else "other_make"},
    )  # fmt: skip


def _plain(make: str) -> str:
    return "".join(sign for sign in make.casefold() if sign.isalnum())


def _given(wiring: Wiring, strings: Strings, name: str) -> bool:
    return not wiring.assumptions.assumed(f"{strings.pointer}/panel/{name}")


def _electric(strings: Strings) -> tuple[float, ...]:
    p: Panel = strings.panel
    return (
        p.open_circuit_voltage_v, p.short_circuit_current_a, p.max_power_voltage_v, p.max_power_current_a,
        p.voc_coefficient_pct_per_k, strings.in_series,
    )  # fmt: skip


def _lost_together_pct(wiring: Wiring, here: tuple[Strings, ...]) -> float | None:
    """Per cent of the separate maxima in full sun that the common voltage costs; None where a sheet makes no curve."""
    diodes = [wiring.curves.diode(s.panel) for s in here]
    if any(diode is None for diode in diodes):
        return None
    branches = tuple(
        Branch(
            diode=diode,
            irradiance_w_per_m2=np.array([FULL_SUN_W_PER_M2]),
            cell_c=np.array([25.0]),
            in_series=s.in_series,
            strings=s.in_parallel,
        )
        for s, diode in zip(here, diodes, strict=True)
        if diode is not None
    )
    together = sum(
        float(d.available_w[0]) for d in drawn_together(branches, wiring.setup.inverter.inputs[here[0].array.input - 1])
    )
    apart = sum(
        float(max_power(b.diode, FULL_SUN_W_PER_M2, 25.0).power_w[0]) * b.in_series * b.strings for b in branches
    )
    return max(100 * (1 - together / apart), 0.0)
