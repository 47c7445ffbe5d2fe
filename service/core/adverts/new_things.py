"""Are the goods new, or a part of them or another thing: "new connectors", "bought a new inverter", "new roof"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_PARTS = frozenset((".", "!", "?", "\n", ";", ",", ":", "(", ")"))
_THINGS = frozenset(("lead", "accessory", "other_goods", "wiring", "thing", "battery", "p:connector", "p:cable",
                     "p:lead", "p:junction_box", "p:backsheet", "p:display", "p:label"))  # fmt: skip
_SETS = frozenset(("set_one", "set_many"))
_GOODS = PANELS | INVERTERS | _SETS | {"piece"}
_STRANGERS = {"panel": INVERTERS, "inverter": PANELS}
_HOLDING = frozenset(("plus", "for", "without", "each", "new", "unused", "used", "packed"))
_TO_BOUGHT, _BEFORE, _BEHIND = 4, 3, 2


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
    strangers = _THINGS | _STRANGERS.get(kind, frozenset())
    behind = _behind(scene, place, item, strangers)
    return _bought(scene, place, item) or (behind if behind is not None else _before(scene, place, item, strangers))


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
