"""Are the goods new, or a part of them or another thing: "new connectors", "bought a new inverter", "new roof"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item

_PARTS = frozenset((".", "!", "?", "\n", ";", ",", ":", "(", ")"))
_THINGS = frozenset(("lead", "accessory", "other_goods", "wiring", "thing", "battery", "p:connector", "p:cable",
                     "p:lead", "p:junction_box", "p:backsheet", "p:display", "p:label"))  # fmt: skip
_SETS = frozenset(("set_one", "set_many"))
_GOODS = PANELS | INVERTERS | _SETS | {"piece"}
_STRANGERS = {"panel": INVERTERS, "inverter": PANELS}
_HOLDING = frozenset(("plus", "for", "without", "each", "new", "unused", "used", "packed"))
_TO_BOUGHT, _BEFORE, _BEHIND, _TO_COSTING, _TO_PRICE = 4, 3, 2, 3, 6


def leave_out_new_things(scene: Scene, kind: str) -> None:
    """Of the places of "new" go those that tell of something else than the goods of that kind."""
    places = scene.by_what["new"]
    kept = [at for at in places if not _of_another(scene, at, kind)]
    if len(kept) == len(places):
        return
    if kept:
        scene.by_what["new"] = kept
    else:
        del scene.by_what["new"]


def _of_another(scene: Scene, place: int, kind: str) -> bool:
    item = scene.items[place]
    if _priced_elsewhere(scene, item) or _no_longer(scene, item):
        return True
    strangers = _THINGS | _STRANGERS.get(kind, frozenset())
    behind = _behind(scene, place, item, strangers)
    return _bought(scene, place, item) or (behind if behind is not None else _before(scene, place, item, strangers))


def _priced_elsewhere(scene: Scene, item: Item) -> bool:
    """As in "new ones cost 150", where another amount is asked in another sentence?"""
    tokens, small = scene.tokens[item.field], scene.small
    behind = tokens[item.to : item.to + _TO_COSTING]
    at = next((at for at, word in enumerate(behind) if word in small.costing), None)
    if at is None or not _PARTS.isdisjoint(behind[:at]):
        return False
    start = item.at - 1
    while start >= 0 and tokens[start] in small.ones:
        start -= 1
    if start >= 0 and tokens[start] not in _PARTS:
        return False
    amounts = [scene.items[at] for unit in scene.units.keys() & MONEY_UNITS for at in scene.units[unit]]
    told = any(one.clause == item.clause and 0 < one.at - item.to <= _TO_PRICE for one in amounts)
    return told and (bool(scene.price) or any(one.sentence != item.sentence for one in amounts))


def _no_longer(scene: Scene, item: Item) -> bool:
    """As in "plus tout neufs", where a word says "no longer" and elsewhere "more"?"""
    tokens, small = scene.tokens[item.field], scene.small
    at = item.at - 1
    while at >= 0 and item.at - at <= _BEFORE and tokens[at] in small.quite:
        at -= 1
    return at >= 0 and tokens[at] in small.no_longer


def _bought(scene: Scene, place: int, item: Item) -> bool:
    """As in "I bought a new one", told of what came instead."""
    if "bought" not in scene.by_what:
        return False
    near = scene.back(place, 5)
    return any(
        one.what == "bought" and one.clause == item.clause and 0 <= item.at - one.to <= _TO_BOUGHT for one in near
    )


def _behind(scene: Scene, place: int, item: Item, strangers: frozenset[str]) -> bool | None:
    """Does a thing, or do the goods, stand behind it as what is new? None where neither does."""
    tokens = scene.tokens[item.field]
    end = min(item.to + _BEHIND, len(tokens))
    told = {one.at: one.what for one in reversed(scene.ahead(place, 6)) if item.to <= one.at < end}
    for at in range(item.to, end):
        what = told.get(at, "")
        if tokens[at] in _PARTS or what in _HOLDING or what == NUMBER or tokens[at] in scene.small.joining:
            return None
        if tokens[at].startswith(scene.small.other_new) or what in strangers:
            return True
        if what in _GOODS:
            return False
    return None


def _before(scene: Scene, place: int, item: Item, strangers: frozenset[str]) -> bool:
    """As in "connettori nuovi", "the connectors are new"."""
    tokens = scene.tokens[item.field]
    low = max(item.at - _BEFORE, 0)
    told = {one.to - 1: one.what for one in reversed(scene.back(place, 6)) if low < one.to <= item.at}
    for at in range(item.at - 1, low - 1, -1):
        what = told.get(at, "")
        if tokens[at] in _PARTS or what in _GOODS - strangers or tokens[at] in scene.small.joining:
            return False
        if tokens[at].startswith(scene.small.other_new) or what in strangers:
            return True
    return False
