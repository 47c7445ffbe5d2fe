"""How well are adverts read? A file of adverts with their true readings, scored field by field; and how long it takes.

The file holds one JSON object a line: ``title``, ``body``, ``asking_price_text``, and one object, whatever its name:
the true reading. Doubts that no line of the file knows are not counted. Workload of the time: 200 texts of 1 kB, each
an advert of the file with the ones that follow it joined on until it is so long, and cut there. Such a text holds more
figures than one that a person writes at that length, so a second workload are the file's longest adverts as they
stand, told by 200 kB. Beside each stands how many years of hours by the library's functions it costs: the least of the
rounds by the least of as many such years, taken in turn, since a busy machine only ever adds.
"""

import argparse
import json
import time
from collections import defaultdict
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import FunctionType
from typing import Any

from service.app import deps_of
from service.bench.shortlist import functions_by_hand
from service.core.adverts import Advert, Reading, Vocabulary, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from service.settings import Settings

ADVERTS, SIGNS = 200, 1000
ROUNDS = 9
GOALS: Mapping[str, float] = {"years_by_hand_of_200": 7.8}  # at most
SAME_SHARE = 0.01
EXACT = ("kind", "is_offer")
_PANEL = {"rated_power_w": "rated_power_w", "voc_v": "open_circuit_voltage_v", "isc_a": "short_circuit_current_a",
          "vmp_v": "max_power_voltage_v", "imp_a": "max_power_current_a",
          "temp_coeff_voc_pct_per_k": "voc_coefficient_pct_per_k",
          "temp_coeff_power_pct_per_k": "power_coefficient_pct_per_k", "cells_in_series": "cells_in_series",
          "length_mm": "length_mm", "width_mm": "width_mm", "weight_kg": "weight_kg"}  # fmt: skip
_INVERTER = {"ac_power_w": "ac_power_w", "inputs": "input_count", "mppt_min_v": "tracking_min_v",
             "mppt_max_v": "tracking_max_v", "max_input_v": "max_input_voltage_v",
             "max_input_current_a": "max_current_a", "max_short_circuit_a": "max_short_circuit_current_a",
             "start_v": "start_voltage_v"}  # fmt: skip


def main(arguments: Sequence[str]) -> int:
    """``bench adverts FILE [--json] [--misses]``."""
    parser = argparse.ArgumentParser(prog="python -m service bench adverts")
    parser.add_argument("file", type=Path, help="adverts with their true readings, one JSON object a line")
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    parser.add_argument("--misses", action="store_true", help="print each difference")
    chosen = parser.parse_args(arguments)
    rows = [json.loads(line) for line in chosen.file.read_text(encoding="utf-8").splitlines() if line.strip()]
    vocabulary = vocabulary_of(load_advert_words())
    scores, misses = scored(rows, vocabulary)
    figures = {**shares(scores), **cost(rows, vocabulary)}
    for language in sorted({row.get("lang") or "und" for row in rows}):
        of_language = [row for row in rows if (row.get("lang") or "und") == language]
        figures[f"f1_{language}"] = shares(scored(of_language, vocabulary)[0])["f1"]
    rules = "interpreted" if isinstance(read_advert, FunctionType) else "compiled"
    if chosen.json:
        print(json.dumps({"rules": rules, **figures}))
        return 0
    for name, (right, wrong, missed) in sorted(scores.items()):
        print(f"{name:32}{right:6d} right{wrong:6d} wrong{missed:6d} missed")
    print("\n".join(misses) if chosen.misses else "")
    print(f"{'rules':32}{rules}")
    print("\n".join(f"{name:32}{value:8.3f}{_goal(name, value)}" for name, value in figures.items()))
    return 0


def _goal(name: str, value: float) -> str:
    goal = GOALS.get(name)
    return "" if goal is None else f"   goal: at most {goal:.1f}, {'met' if value <= goal else 'not met'}"


def scored(
    rows: Sequence[Mapping[str, Any]], vocabulary: Vocabulary
) -> tuple[dict[str, tuple[int, int, int]], list[str]]:
    """Right, wrong and missed values by field, and the differences in words."""
    counts: dict[str, list[int]] = defaultdict(lambda: [0, 0, 0])
    misses = []
    doubts = {code for row in rows for code in true_of(row).get("warnings", ())}
    for row in rows:
        reading = read_advert(advert_of(row), vocabulary)
        true, told = plain_true(true_of(row)), plain_reading(reading)
        told["warnings"] = [code for code in told.get("warnings", ()) if code in doubts]
        for name in sorted({*true, *told}):
            wanted, given = true.get(name), told.get(name)
            if isinstance(wanted, list) or isinstance(given, list):
                one, other = set(wanted or ()), set(given or ())
                counts[name][0] += len(one & other)
                counts[name][1] += len(other - one)
                counts[name][2] += len(one - other)
                same = one == other
            else:
                same = _same(wanted, given)
                counts[name][0] += same
                counts[name][1] += given is not None and not same
                counts[name][2] += wanted is not None and not same
            if not same:
                misses.append(f"{row.get('id')} {name}: {wanted} read as {given}")
    return {name: (one[0], one[1], one[2]) for name, one in counts.items()}, misses


def shares(scores: Mapping[str, tuple[int, int, int]]) -> dict[str, float]:
    """Precision, recall and F1 over all fields; precision of the numbers; share of right kinds and offers."""
    right, wrong, missed = (sum(one[at] for one in scores.values()) for at in range(3))
    numbers = [one for name, one in scores.items() if name in _NUMBERS]
    known, false = sum(one[0] for one in numbers), sum(one[1] for one in numbers)
    precision, recall = right / max(right + wrong, 1), right / max(right + missed, 1)
    exact = {name: scores[name][0] / max(sum(scores[name][:2]), 1) for name in EXACT if name in scores}
    f1 = 2 * precision * recall / max(precision + recall, 1e-9)
    return {
        "precision": precision,
        "recall": recall,
        "f1": f1,
        "precision_numbers": known / max(known + false, 1),
        **exact,
    }


_NUMBERS = {"quantity_available", "price_value", "unit_price", "shipping_cost", *_PANEL,
            *(f"inverter.{name}" for name in _INVERTER)}  # fmt: skip


def advert_of(row: Mapping[str, Any]) -> Advert:
    """The advert of a row, without its note."""
    return Advert(title=row["title"] or "", body=row["body"] or "", price_text=row["asking_price_text"])


def true_of(row: Mapping[str, Any]) -> Mapping[str, Any]:
    """The true reading of a row: its only object."""
    return next(value for value in row.values() if isinstance(value, Mapping))


def plain_true(true: Mapping[str, Any]) -> dict[str, Any]:
    """What is stated, by field; nothing for what is not."""
    plain = {name: value for name, value in true.items() if name != "inverter"}
    plain |= {f"inverter.{name}": value for name, value in true.get("inverter", {}).items()}
    return {name: value for name, value in plain.items() if value not in (None, "unknown", [])}


def plain_reading(reading: Reading) -> dict[str, Any]:
    """A reading by the same fields."""
    price = reading.price
    plain: dict[str, Any] = {
        "kind": reading.kind, "is_offer": reading.is_offer, "quantity_available": reading.quantity_available,
        "price_value": price.value, "price_currency": price.currency, "price_basis": price.basis,
        "unit_price": price.each, "technology": reading.technology, "bifacial": reading.bifacial,
        "condition": reading.condition, "defects": list(reading.defects), "delivery": reading.delivery,
        "shipping_cost": reading.shipping_cost, "warnings": list(reading.doubts),
    }  # fmt: skip
    plain |= {name: reading.panel.get(told) for name, told in _PANEL.items()}
    plain |= {f"inverter.{name}": reading.inverter.get(told) for name, told in _INVERTER.items()}
    return {name: value for name, value in plain.items() if value not in (None, "unknown", [])}


def _same(wanted: object, given: object) -> bool:
    if isinstance(wanted, int | float) and isinstance(given, int | float) and not isinstance(wanted, bool):
        return abs(wanted - given) <= SAME_SHARE * max(abs(wanted), abs(given))
    return wanted == given


def cost(rows: Sequence[Mapping[str, Any]], vocabulary: Vocabulary) -> dict[str, float]:
    """CPU time of 200 kB, joined and as they stand, the least of the rounds; and how often it holds that of a year."""
    joined, (longest, signs) = joined_adverts(rows), longest_adverts(rows)
    by_hand = functions_by_hand(deps_of(Settings()))
    by_hand()  # what is loaded once
    took: dict[str, list[float]] = defaultdict(list)
    for _ in range(ROUNDS):
        for name, work in (
            ("by_hand", by_hand),
            ("joined", lambda: [read_advert(advert, vocabulary) for advert in joined]),
            ("longest", lambda: [read_advert(advert, vocabulary) for advert in longest]),
        ):
            begun = time.process_time()
            work()
            took[name].append(time.process_time() - begun)
    year, of_joined, of_longest = (min(took[name]) for name in ("by_hand", "joined", "longest"))
    of_longest *= ADVERTS * SIGNS / signs
    return {
        "cpu_ms_of_200": 1000 * of_joined,
        "years_by_hand_of_200": of_joined / year,
        "cpu_ms_of_200_kb_as_they_stand": 1000 * of_longest,
        "years_by_hand_as_they_stand": of_longest / year,
    }


def joined_adverts(rows: Sequence[Mapping[str, Any]]) -> list[Advert]:
    """200 texts of 1 kB, each of several adverts."""
    bodies = [row["body"] or " " for row in rows if len(row["body"] or "") < 2 * SIGNS]
    adverts = []
    for at in range(ADVERTS):
        text = bodies[at % len(bodies)]
        others, step = text, 1
        while len(others) < SIGNS:
            others += "\n" + bodies[(at + step) % len(bodies)]
            step += 1
        adverts.append(Advert(title="", body=others[:SIGNS]))
    return adverts


def longest_adverts(rows: Sequence[Mapping[str, Any]]) -> tuple[list[Advert], int]:
    """The adverts of at least half a kB, or else the longest one; in turn up to 200, and their signs; no floods."""
    adverts = [advert_of(row) for row in rows if len(row["body"] or "") < 2 * SIGNS]
    signs = {advert: len(advert.title) + len(advert.body) + len(advert.price_text or "") for advert in adverts}
    least = min(SIGNS / 2, max(signs.values()))
    longest = [advert for advert in adverts if signs[advert] >= least]
    longest *= max(ADVERTS // len(longest), 1)
    return longest, sum(signs[advert] for advert in longest)
