"""Which words tell how many there are, in what state they are, how they come and of what kind they are?"""

from collections.abc import Iterable
from typing import NamedTuple

from service.core.adverts.money_told import amounts_told
from service.core.adverts.pieces import counted_at
from service.core.adverts.scene import Scene
from service.core.adverts.state import BREAKING
from service.core.adverts.walk import Item


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
    _tell_state(scene, state, found)
    _tell_sending(scene, state, found)
    _tell_kind(scene, state, found)
    return found


def _tell_state(scene: Scene, state: State, found: list[Told]) -> None:
    condition, delivery = state.condition, state.delivery
    if condition != "unknown":
        named = tuple(f"d:{defect}" for defect in state.defects if defect in BREAKING)
        item = _first(scene, _OF_STATE.get(condition, named))
        if item is not None:
            found.append(("condition", condition, "", item, _STATE))
    item = _first(scene, _OF_WAY[delivery]) if delivery in _OF_WAY else None
    if item is not None:
        found.append(("delivery", delivery, "", item, _WAY))
    for defect in state.defects:
        item = _first(scene, (f"d:{defect}", "d:dead") if defect == "dead_input" else (f"d:{defect}",))
        if item is not None:
            found.append(("defect", defect, "", item, _WAY))


def _tell_sending(scene: Scene, state: State, found: list[Told]) -> None:
    """The first figure that is what sending costs."""
    cost = state.shipping_cost
    for place in sorted((*scene.units.get("", []), *amounts_told(scene))) if cost else []:
        if scene.items[place].value == cost:
            found.append(("shipping_cost", cost or 0.0, state.currency or "", scene.items[place], _WAY))
            return


def _tell_kind(scene: Scene, state: State, found: list[Told]) -> None:
    technology, bifacial = state.technology, state.bifacial
    item = _first(scene, (f"t:{technology}",)) if technology else None
    if item is not None and technology:
        found.append(("technology", technology, "", item, _KINDS))
    item = None if bifacial is None else _first(scene, ("bifacial" if bifacial else "monofacial", "bifacial"))
    if item is not None and bifacial is not None:
        found.append(("bifacial", bifacial, "", item, _KINDS))


def _first(scene: Scene, meanings: tuple[str, ...]) -> Item | None:
    """Where the first of these meanings that is told stands; one that is not denied before one that is."""
    for meaning in meanings:
        places = scene.by_what.get(meaning)
        if places:
            said = scene.said(meaning)
            return scene.items[said[0] if said else places[0]]
    return None
