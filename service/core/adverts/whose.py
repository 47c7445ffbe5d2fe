"""Are the goods dead, or is another thing: "my inverter broke, so the panels go", "dead above 60 V"?"""

from collections.abc import Set

from service.core.adverts.reading import DEFECTS
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

DEFECT_MEANINGS = frozenset(f"d:{defect}" for defect in DEFECTS)
_THINGS = frozenset(("thing", "battery"))
_BESIDES = frozenset(("accessory", "other_goods"))
_STRANGERS = {"panel": _THINGS | {"inverter_one", "inverter_many"}, "inverter": _THINGS | {"panel_one", "panel_many"}}
_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many"))
_NEAR, _BEHIND, _FAR = 8, 3, 10


def of_the_goods(scene: Scene, places: list[int], kind: str) -> list[int]:
    """Those of the places of a defect that tell of what is sold, as far as the words near by tell."""
    return [at for at in places if not (_if(scene, at) or _of_another(scene, at, kind, _BESIDES) or _beyond(scene, at))]


def leave_out_strangers(scene: Scene, kind: str) -> None:
    """Of the defects goes what is told of an inverter where panels are sold, and the other way round."""
    strangers = _STRANGERS.get(kind)
    if strangers is None or not scene.tells(*(strangers - _THINGS)):
        return
    for what in scene.by_what.keys() & DEFECT_MEANINGS:
        places = scene.by_what[what]
        kept = [at for at in places if not _of_another(scene, at, kind)]
        if len(kept) < len(places):
            scene.by_what[what] = kept


def _if(scene: Scene, place: int) -> bool:
    """Is it only said what holds if it should be so: "money back if dead"?"""
    if "if" not in scene.by_what:
        return False
    item = scene.items[place]
    return any(one.what == "if" and one.clause == item.clause and item.at - one.to <= _NEAR
               for one in scene.back(place))  # fmt: skip


def _of_another(scene: Scene, place: int, kind: str, besides: Set[str] = frozenset()) -> bool:
    """Is the thing named nearest before it in its clause, or directly behind it, none of the goods?

    ``besides``: meanings of things that are only where no goods are named before them.
    """
    strangers = _STRANGERS.get(kind)
    if strangers is None or not scene.tells(*strangers, *besides):
        return False
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    for one in scene.ahead(place, 4):  # "a dead inverter"
        if one.clause != item.clause or one.at - item.to > _BEHIND or one.what == NUMBER:
            break
        if one.at >= item.to and (one.what in _GOODS or one.what in strangers):
            if one.at == item.to or _is_first(scene, place, item):  # "broken is my inverter", where verbs stand first
                return one.what in strangers and not _placed(scene, tokens, one)
            break
    for one in scene.back(place):
        if one.clause != item.clause or item.at - one.to > _NEAR or one.what == NUMBER:
            return False
        if one.what in strangers or (one.what in besides and _is_first(scene, place, item)):
            return not _placed(scene, tokens, one)
        if one.what in _GOODS or one.what in besides:
            return False
    return False


def _is_first(scene: Scene, place: int, item: Item) -> bool:
    """Is nothing of the goods named before it in its clause?"""
    return not any(one.what in _GOODS and one.clause == item.clause for one in scene.back(place, 6))


def _placed(scene: Scene, tokens: list[str], one: Item) -> bool:
    """Does "with", "on" stand before a thing, at most a word like "my" between?"""
    return not scene.small.placed.isdisjoint(tokens[max(one.at - 2, 0) : one.at])


def _beyond(scene: Scene, place: int) -> bool:
    """Is it said what happens beyond some volts: "above 60 V it is dead"?"""
    item = scene.items[place]
    for one in scene.back(place):
        if item.at - one.to > _FAR:
            break
        if one.what == NUMBER and one.unit == "V":
            return _is_beyond(scene, one)
    return False


def kills(scene: Scene, place: int) -> bool:
    """Are they the volts beyond which it is said to be dead?"""
    item = scene.items[place]
    for one in scene.ahead(place, 4):
        if one.at - item.to > _FAR or one.what == NUMBER:
            break
        if one.what == "d:dead":
            return _is_beyond(scene, item)
    return False


def _is_beyond(scene: Scene, volts: Item) -> bool:
    return not scene.small.beyond.isdisjoint(scene.tokens[volts.field][max(volts.at - 3, 0) : volts.at])
