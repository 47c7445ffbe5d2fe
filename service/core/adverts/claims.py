"""Which words tell how many there are, in what state they are, how they come and of what kind they are?"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from service.core.adverts.pieces import counted_at
from service.core.adverts.scene import Scene, measured_in
from service.core.adverts.state import BREAKING
from service.core.adverts.walk import CURRENCIES, Item


class State(NamedTuple):
    """Of a reading what words tell, in its own names."""

    kind: str
    quantity: int | None
    condition: str
    defects: tuple[str, ...]
    delivery: str
    shipping_cost: float | None
    currency: str | None
    technology: str | None
    bifacial: bool | None


Told = tuple[str, float | str | bool, str, Item, float]  # what, value, unit, where, sureness

_NUMBERS, _KINDS, _STATE, _WAY = 0.9, 0.95, 0.9, 0.85
_MONEY = ("", *sorted(CURRENCIES), "money")
# Meanings that tell a state, or a way to get the goods, first ones first.
_OF_STATE = {"used": ("used", "q:account_bound", "served", "site"), "new": ("new",), "unused": ("unused",)}
_OF_WAY = {"pickup": ("pickup", "refused", "shipping"), "shipping": ("delivered", "shipping", "bring"),
           "either": ("shipping", "delivered", "bring")}  # fmt: skip


def told_in_words(scene: Scene, state: State, counts: Iterable[tuple[str, tuple[int, Item] | None]]) -> list[Told]:
    """What is told besides ratings and price, each with its place; what no single word tells is not there.

    ``counts``: numbers of pieces or panels with their places, by name.
    """
    found: list[Told] = [(name, one[0], "", one[1], _NUMBERS) for name, one in counts if one is not None]
    quantity = state.quantity
    at = None if quantity is None else counted_at(scene, state.kind, quantity)
    if quantity is not None and at is not None:
        found.append(("quantity_available", quantity, "", at, _NUMBERS))
    found += _state(scene, state)
    return found + [(what, value, "", item, _KINDS) for what, value, item in _kind(scene, state)]


def _state(scene: Scene, state: State) -> Iterator[Told]:
    named = tuple(f"d:{defect}" for defect in state.defects if defect in BREAKING)
    for what, value, meanings, sure in (
        ("condition", state.condition, _OF_STATE.get(state.condition, named), _STATE),
        ("delivery", state.delivery, _OF_WAY.get(state.delivery, ()), _WAY),
        *(("defect", defect, (f"d:{defect}", *(("d:dead",) if defect == "dead_input" else ())), _WAY)
          for defect in state.defects),
    ):  # fmt: skip
        item = _first(scene, meanings)
        if item is not None and value != "unknown":
            yield what, value, "", item, sure
    cost = state.shipping_cost
    for place in measured_in(scene, *_MONEY) if cost else ():
        if scene.items[place].value == cost:
            yield "shipping_cost", cost or 0.0, state.currency or "", scene.items[place], _WAY
            return


def _kind(scene: Scene, state: State) -> Iterator[tuple[str, str | bool, Item]]:
    item = _first(scene, (f"t:{state.technology}",)) if state.technology else None
    if item is not None and state.technology:
        yield "technology", state.technology, item
    item = _first(scene, ("bifacial" if state.bifacial else "monofacial", "bifacial"))
    if item is not None and state.bifacial is not None:
        yield "bifacial", state.bifacial, item


def _first(scene: Scene, meanings: Iterable[str]) -> Item | None:
    """Where the first of these meanings that is told stands; one that is not denied before one that is."""
    for meaning in meanings:
        places = scene.by_what.get(meaning)
        if places:
            said = scene.said(meaning)
            return scene.items[said[0] if said else places[0]]
    return None
