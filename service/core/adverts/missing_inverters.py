"""Is an inverter told to be missing, so that panels of a set are all that there is?

As in "balcony kit, inverter missing", "es fehlt der 800-W-Wechselrichter", "falta el inversor de 800 W".
"""

from service.core.adverts.scene import Scene
from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import INVERTERS, PANELS

_SETS = frozenset(("set_one", "set_many", "set_weak"))
_WITH_PANELS = PANELS | {"set_one", "set_many"}
_FAR = 6
_ENDS = frozenset(".,;!?\n|():")


def inverter_missing(scene: Scene) -> bool:
    """Is one missing from panels or a set that are told?"""
    if "s:missing" not in scene.by_what or _WITH_PANELS.isdisjoint(scene.by_what):
        return False
    return any(_is_missing(scene, place) for place in scene.places(INVERTERS))


def watts_of_missing(scene: Scene) -> set[int]:
    """Places of the watts of a missing inverter, or of the whole set with it, where panels tell theirs."""
    watts = scene.units.get("W", [])
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
    """Is the inverter at that place, and nothing of it or about it; and not "must go", as things do that are sold?

    Only where next to nothing else is said beside both: of "the invoice of the inverter is missing" it is not known.
    """
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    for at in scene.by_what["s:missing"]:
        one = scene.items[at]
        if one.sentence != item.sentence or one.clause != item.clause or scene.denied(at):
            continue
        if one.field != item.field or tokens[one.at - 1] in small.must_go:
            continue
        first, last = (item, one) if one.at >= item.to else (one, item)
        alone = _only_beside(scene, tokens[first.to : last.at]) and _ends(tokens, last.to, small)
        if alone and (first is one or _begins(scene, tokens, item.at)):
            return small.second.isdisjoint(tokens[max(item.at - 2, 0) : item.at])
    return False


def _only_beside(scene: Scene, words: list[str]) -> bool:
    """Is there nothing among them but articles, "is" and the like, and watts?"""
    small = scene.small
    return all(word in small.light_words or word in small.watts or not word.isalpha() for word in words) and (
        _ENDS.isdisjoint(words)
    )


def _ends(tokens: list[str], to: int, small: SmallWords) -> bool:
    """Does what is said of it end there, but for watts: "falta el inversor de 800 W"?"""
    behind = tokens[to : to + _FAR]  # "and" is no end: Dutch "en" is a Danish article
    for at, word in enumerate(behind):
        if word in _ENDS:
            return True
        of_watts = at + 1 < len(behind) and behind[at + 1].isdigit()
        if word.isalpha() and word not in small.watts and not of_watts:
            return False
    return True


def _begins(scene: Scene, tokens: list[str], at: int) -> bool:
    """Does it begin with the inverter there, but for articles and watts: no "invoice of the inverter"?"""
    small = scene.small
    for word in tokens[max(at - _FAR, 0) : at][::-1]:
        if word in _ENDS or word in small.joining:
            return True
        if word.isalpha() and word not in small.light_words and word not in small.watts:
            return False
    return True
