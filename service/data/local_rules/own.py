"""Which rule cards does the operator keep, and do they make sense? A bad one stops the start and is named."""

import json
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from service.core.rules import RuleCard
from service.data.local_rules.loader import BACKGROUND_AREAS, cards_from_rows
from service.data.local_rules.schema import card_schema, contradictions, faults

LARGEST_BYTES = 1_000_000
# What may lie beside the cards.
_NOTES = frozenset({".md", ".txt"})
_MOST_FAULTS = 20


class CardError(ValueError):
    """A folder of rule cards cannot be read, or a card in it makes no sense; the message names file and field."""


def own_cards(folder: str) -> Mapping[str, tuple[RuleCard, ...]]:
    """The cards of a folder by area code; none where no folder is named.

    One file an area, ``DE.json`` or ``US-UT.json``, each a list of cards by ``card.schema.json``. Hidden files, and
    notes (.md, .txt), are passed over.

    Raises:
        CardError: there is no such folder, it holds no card, or a file is not what it should be; all faults at once.
    """
    if not folder:
        return MappingProxyType({})
    try:
        found = sorted(path for path in Path(folder).iterdir() if not path.name.startswith("."))
    except OSError as error:
        raise CardError(_message(folder, f"cannot be read as a folder ({error.strerror})")) from error
    cards: dict[str, tuple[RuleCard, ...]] = {}
    wrong: list[str] = []
    for path in found:
        if path.suffix in _NOTES:
            continue
        rows, problems = _rows(path)
        wrong += [f"{path}: {problem}" for problem in problems]
        if not problems:
            cards[path.stem] = cards_from_rows(rows)
    if wrong:
        more = f"; and {len(wrong) - _MOST_FAULTS} more" if len(wrong) > _MOST_FAULTS else ""
        raise CardError("rule cards: " + "; ".join(wrong[:_MOST_FAULTS]) + more)
    if not cards:
        raise CardError(_message(folder, "holds no card; name files after their area, such as DE.json"))
    return MappingProxyType(cards)


def with_own(
    packaged: Mapping[str, tuple[RuleCard, ...]], own: Mapping[str, tuple[RuleCard, ...]]
) -> Mapping[str, tuple[RuleCard, ...]]:
    """All areas: the operator's cards of an area replace the packaged ones of that area, all of them."""
    return MappingProxyType(dict(sorted({**packaged, **own}.items())))


def _rows(path: Path) -> tuple[list[dict[str, Any]], list[str]]:
    """The rows of a file, and what is wrong with them."""
    if path.suffix != ".json":
        return [], ["is no .json file; cards are, and notes are .md or .txt"]
    try:
        content = path.read_bytes()
        if len(content) > LARGEST_BYTES:
            return [], [f"has {len(content)} bytes; accepted: up to {LARGEST_BYTES}"]
        rows = json.loads(content.decode("utf-8"), object_pairs_hook=_once)
    except OSError as error:
        return [], [f"cannot be read ({error.strerror})"]
    except (ValueError, RecursionError) as error:
        return [], [f"is no JSON in UTF-8 ({error})"]
    problems = list(faults(rows, card_schema()))
    if not problems:
        for at, row in enumerate(rows):
            problems += contradictions(row, f"/{at}")
            if row["id"] != path.stem:
                problems.append(f'/{at}/id is "{row["id"]}"; accepted: {path.stem}, as the file is called')
            if row["id"] in BACKGROUND_AREAS:
                problems.append(f"/{at}/id names background that no place is asked by")
    return rows, problems


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object; a name said twice is refused."""
    made = dict(pairs)
    if len(made) < len(pairs):
        names = [name for name, _ in pairs]
        message = f"a name is said twice: {next(name for name in names if names.count(name) > 1)}"
        raise ValueError(message)
    return made


def _message(folder: str, problem: str) -> str:
    return f"rule cards: {folder}: {problem}"
