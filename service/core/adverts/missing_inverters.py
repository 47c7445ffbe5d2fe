"""Is an inverter told to be missing, so that panels of a set are all that there is?

As in "balcony kit, inverter missing", "es fehlt der 800-W-Wechselrichter", "falta el inversor de 800 W".
"""

from collections.abc import Sequence

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_SETS = frozenset(("set_one", "set_many", "set_weak"))
_WITH_PANELS = PANELS | {"set_one", "set_many"}
_THINGS = frozenset(("accessory", "other_goods"))
_MOST_WORDS, _FAR = 2, 6
_ENDS = frozenset(".,;!?\n|():")


def inverter_missing(scene: Scene) -> bool:
    """Is one missing from panels or a set that are told?"""
    if "s:missing" not in scene.by_what or _WITH_PANELS.isdisjoint(scene.by_what):
        return False
    return any(_is_missing(scene, place) for place in scene.places(INVERTERS))


def watts_of_missing(scene: Scene) -> set[int]:
    """Places of the watts of a missing inverter, or of the whole set with it, where panels tell theirs."""
    watts = scene.units.get("W", ())
    if len(watts) <= 1 or not inverter_missing(scene):
        return set()
    beside = {(scene.items[at].field, scene.items[at].clause) for at in scene.places(PANELS)}
    own = {at for at in watts if (scene.items[at].field, scene.items[at].clause) in beside}
    further = {at for at in own if _of_set(scene, at)}
    own = own - further or own
    return set(watts) - own if own else set()


def _of_set(scene: Scene, place: int) -> bool:
    """Does a word for a set stand directly before it: "kit solar 800 W con 2 placas"?"""
    item = scene.items[place]
    return any(one.what in _SETS and 0 <= item.at - one.to <= 1 for one in scene.back(place, 3))


def _is_missing(scene: Scene, place: int) -> bool:
    """Is the inverter at that place, not a part of it; and not "must go", as things do that are sold?"""
    missing = scene.by_what["s:missing"]
    item = scene.items[place]
    for at in missing:
        one = scene.items[at]
        if one.sentence != item.sentence or one.clause != item.clause or scene.denied(at):
            continue
        if scene.tokens[one.field][one.at - 1] in scene.small.must_go:
            continue
        first, last = (place, at) if one.at >= item.to else (at, place)
        if _apart(scene, first, last):
            continue
        if first == at or not (_has_object(scene, at, one) or _of_part(scene, place, item)):
            return scene.small.second.isdisjoint(scene.tokens[item.field][max(item.at - 2, 0) : item.at])
    return False


def _apart(scene: Scene, first: int, last: int) -> bool:
    """Do other things, other figures than watts or several words stand between two items?"""
    one, two = scene.items[first], scene.items[last]
    words = scene.tokens[one.field][one.to : two.at]
    between = scene.items[first + 1 : last]
    if one.what in INVERTERS and ":" in words:
        return True
    if two.at - one.to > _FAR or any(_tells(item) for item in between if one.to <= item.at < two.at):
        return True
    named = {at for item in between if item.what == NUMBER for at in range(item.at, item.to)}
    return sum(word.isalpha() and one.to + at not in named for at, word in enumerate(words)) > _MOST_WORDS


def _tells(item: Item) -> bool:
    """Is it anything but watts, their name or the same goods again?"""
    return item.what not in INVERTERS and item.what != "power" and not (item.what == NUMBER and item.unit in {"W", ""})


def _of_part(scene: Scene, place: int, item: Item) -> bool:
    """Does the part that is missing stand before it: "cable of the inverter missing", but not "mounts and inverter"?"""
    tokens = scene.tokens[item.field]
    return any(
        _is_thing(one)
        and one.clause == item.clause
        and 0 <= item.at - one.to <= _MOST_WORDS
        and scene.small.joining.isdisjoint(tokens[one.to : item.at])
        for one in scene.back(place, 4)
    )


def _is_thing(item: Item) -> bool:
    return item.what in _THINGS or item.what.startswith("p:")


def _has_object(scene: Scene, place: int, one: Item) -> bool:
    """Does what is missing follow: "inverter missing its lead"?"""
    tokens = scene.tokens[one.field]
    words: Sequence[str] = tokens[one.to : one.to + 1]
    if not words or words[0] in _ENDS:
        return False
    return any(
        two.clause == one.clause and two.at - one.to <= _MOST_WORDS + 1 and _is_thing(two)
        for two in scene.ahead(place, 4)
    )
