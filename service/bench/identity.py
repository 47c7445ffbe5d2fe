"""Do the ranges hold panels of makers that they were not made from? Voc and Isc of left-out makers, by what is known.

The workload: the public list is split in ten by maker (makers with the same first word together, so that no copy of a
row under another model name is left behind). For each tenth, what is typical is found anew from the other nine, and
panels of the tenth (drawn evenly by entry, crystalline ones with a size, atypical ones and misprints too) are asked for
by some of their facts. A panel counts as held where a candidate with its cells in series has both Voc and Isc within
its ranges; no candidate with its cells counts as missed. Classes of newer cells do not help: the list is asked alone.
"Rebadged out": rows of other makers with the same power, Voc and Isc are taken from the nine parts as well.
"""

import argparse
import json
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass

import numpy as np

from service.core.identity import ISC, VOC, Candidate, PanelFacts, identify, typical_rows
from service.core.model.panel_list import LISTED_KINDS, Mask, PanelList, Rows
from service.data.panel_list import load_panel_list

FOLDS = 10
PANELS = 3000
_SIZE = ("length_mm", "width_mm")
# What a caller says, beside the power.
QUESTIONS: Mapping[str, tuple[str, ...]] = {
    "power": (),
    "power, cells": ("cells_visible",),
    "power, size": _SIZE,
    "power, size, cells": (*_SIZE, "cells_visible"),
    "power, size, cells, kind": (*_SIZE, "cells_visible", "cell_kind"),
    "power, size, cells, Voc": (*_SIZE, "cells_visible", VOC),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Of left-out panels: shares held, and median half widths of the range of the surest candidate, V and A."""

    known: str
    panels: int
    voc_share: float
    isc_share: float
    both_share: float
    first_holds_share: float
    candidates: float
    unlisted_share: float
    voc_half_width_v: float
    isc_half_width_a: float


@dataclass(frozen=True, slots=True, kw_only=True)
class IdentityReport:
    """Scores by question, without and with rebadged rows taken out, and the median CPU time of a question, ms."""

    scores: tuple[Held, ...]
    rebadged_out: tuple[Held, ...]
    question_ms: float

    def __str__(self) -> str:
        """A plain table."""
        shares = "".join(f"{name:>7}" for name in ("panels", "Voc", "Isc", "both", "first"))
        head = f"{'known':28}{shares}{'builds':>8}{'unlisted':>9}{'+-V':>7}{'+-A':>7}"
        lines = [head, *map(_line, self.scores), "rebadged out:", *map(_line, self.rebadged_out)]
        lines.append(f"one question of the list: {self.question_ms:.2f} ms")
        return "\n".join(lines)


def _line(s: Held) -> str:
    shares = "".join(f"{100 * v:7.1f}" for v in (s.voc_share, s.isc_share, s.both_share, s.first_holds_share))
    widths = f"{s.voc_half_width_v:7.2f}{s.isc_half_width_a:7.2f}"
    return f"{s.known:28}{s.panels:7d}{shares}{s.candidates:8.1f}{100 * s.unlisted_share:9.1f}{widths}"


def main(arguments: Sequence[str]) -> int:
    """``bench identity [--panels N] [--json]``."""
    parser = argparse.ArgumentParser(prog="python -m service bench identity")
    parser.add_argument("--panels", type=int, default=PANELS, help="how many left-out panels to ask for")
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    report = identity_bench(chosen.panels)
    print(json.dumps(asdict(report)) if chosen.json else report)
    return 0


def identity_bench(panels: int = PANELS) -> IdentityReport:
    """Score the packaged list on so many left-out panels."""
    table = load_panel_list()
    begun = time.process_time()
    scores = held_of_left_out(table, panels, QUESTIONS)
    took = time.process_time() - begun
    return IdentityReport(
        scores=scores,
        rebadged_out=held_of_left_out(table, panels, QUESTIONS, rebadged_out=True),
        question_ms=1000 * took / (len(QUESTIONS) * panels),
    )


def held_of_left_out(
    table: PanelList, panels: int, questions: Mapping[str, tuple[str, ...]], *, rebadged_out: bool = False
) -> tuple[Held, ...]:
    """Ask for ``panels`` panels of left-out makers, each question once."""
    tried = list(left_out(table, panels, rebadged_out=rebadged_out))
    return tuple(_held(known, names, tried, table) for known, names in questions.items())


def left_out(table: PanelList, panels: int, *, rebadged_out: bool = False) -> Iterator[tuple[int, PanelList]]:
    """Rows to ask for, each with a list that its maker is not on."""
    rows = drawn(table, panels)
    fold = table.maker % FOLDS
    for part in range(FOLDS):
        asked = rows[fold[rows] == part]
        kept = fold != part
        if rebadged_out:
            kept &= ~_same_sheet(table, asked)
        rest = table.only(kept)
        rest = rest.only(np.ones(len(rest), dtype=np.bool_), typical_rows(rest))
        for row in asked:
            yield int(row), rest


def drawn(table: PanelList, panels: int) -> Rows:
    """Rows spread evenly over the entries of crystalline panels with a size."""
    crystalline = np.isin(table.kind, [LISTED_KINDS.index("mono"), LISTED_KINDS.index("poly")])
    rows = np.flatnonzero(crystalline & np.isfinite(table.length_mm) & np.isfinite(table.width_mm))
    reached = np.cumsum(table.listings[rows])
    wanted = (np.arange(panels) + 0.5) / panels * reached[-1]
    return np.asarray(rows[np.searchsorted(reached, wanted)], dtype=np.intp)


def _same_sheet(table: PanelList, rows: Rows) -> Mask:
    sheets = np.stack([table.rated_power_w, table.open_circuit_voltage_v, table.short_circuit_current_a], axis=1)
    wanted = {tuple(sheet) for sheet in sheets[rows]}
    return np.array([tuple(sheet) in wanted for sheet in sheets])


def facts_of(table: PanelList, row: int, names: Sequence[str]) -> PanelFacts:
    """What a caller would say of a row: its power and the named facts, sizes to 1 mm."""
    known: dict[str, float | int | str] = {
        "cells_visible": int(table.cells_in_series[row]),
        "cell_kind": LISTED_KINDS[int(table.kind[row])],
    }
    said = {name: known[name] if name in known else float(getattr(table, name)[row]) for name in names}
    return PanelFacts(rated_power_w=float(table.rated_power_w[row]), **said)  # type: ignore[arg-type]


def _held(known: str, names: Sequence[str], tried: Sequence[tuple[int, PanelList]], table: PanelList) -> Held:
    hits, widths = [], []
    for row, rest in tried:
        found = [one for one, _ in identify(facts_of(table, row, names), rest).candidates]
        own = [one for one in found if one.cells_in_series in {None, table.cells_in_series[row]}]
        held = [any(_holds(one, table, row, name) for one in own) for name in (VOC, ISC)]
        first = bool(found) and all(_holds(found[0], table, row, name) for name in (VOC, ISC))
        hits.append((*held, all(held), first, len(found), not any(one.found_in == "public_list" for one in own)))
        if found:
            widths.append([(found[0].ranges[name].high - found[0].ranges[name].low) / 2 for name in (VOC, ISC)])
    voc, isc, both, first_share, count, unlisted = np.mean(np.array(hits, dtype=np.float64), axis=0)
    volts, amperes = np.median(np.array(widths), axis=0)
    return Held(
        known=known, panels=len(tried), voc_share=float(voc), isc_share=float(isc), both_share=float(both),
        first_holds_share=float(first_share), candidates=float(count), unlisted_share=float(unlisted),
        voc_half_width_v=float(volts),
        isc_half_width_a=float(amperes),
    )  # fmt: skip


def _holds(one: Candidate, table: PanelList, row: int, name: str) -> bool:
    value = float(getattr(table, name)[row])
    return one.ranges[name].low <= value <= one.ranges[name].high
