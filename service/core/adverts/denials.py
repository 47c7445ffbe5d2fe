"""How far does a "no" reach: through lists of faults, over the words for what goods are, over ties to an account?

As in "free of scratches and cracks", "not a 12 V panel for a caravan", "bound to no account". A comma goes on with a
list only where an "and" or "or" ends it ("no cracks, scratches or dents", but "no cracks, scratches on the frame").
"""

from collections.abc import Iterator, Set

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_NEAR, _FAR, _AROUND = 2, 9, 5
_OF_A_KIND = frozenset((NUMBER, "panel_one", "panel_many", "inverter_one", "inverter_many", "camping", "q:off_grid",
                        "for", "between", "range", "plus", "times", "battery", "other_goods", "other_one", "used",
                        "site"))  # fmt: skip


def leave_out_denied(scene: Scene, faults: Set[str]) -> None:
    """Of these meanings go the places that a "no" reaches through a list, or that the goods are said to be free of."""
    if not scene.tells("without", "free_of"):
        return
    told = scene.places(faults)
    if "free_of" not in scene.by_what and (len(told) < _NEAR or scene.denials.isdisjoint(told)):
        return
    gone = set(_reached(scene, told))
    for what in scene.by_what.keys() & faults if gone else ():
        scene.by_what[what] = [at for at in scene.by_what[what] if at not in gone]


def _reached(scene: Scene, told: list[int]) -> Iterator[int]:
    denied, last = False, -1
    commas: list[int] = []
    for place in told:
        item = scene.items[place]
        if last >= 0 and (item.field, item.at) == (scene.items[last].field, scene.items[last].at):
            told_twice = denied or bool(commas)
        else:
            told_twice = False
        joint = "same" if told_twice else _joint(scene, last, item)
        if _free_of(scene, place) or scene.denied(place):
            denied, commas = True, []
        elif joint == "," and (denied or commas):
            commas.append(place)
            denied = False
        elif joint == "and" and (denied or commas):
            yield from commas
            denied, commas = True, []
        elif joint == "same" and commas:
            commas.append(place)
        elif joint != "same":
            denied, commas = False, []
        if denied:
            yield place
        last = place


def _joint(scene: Scene, last: int, item: Item) -> str:
    """What joins two faults: "and" (or "or"), a comma, or nothing of the kind."""
    before = scene.items[last]
    if last < 0 or before.field != item.field or before.sentence != item.sentence:
        return ""
    between = [word for word in scene.tokens[item.field][before.to : item.at] if word != ","]
    if not between:
        return ","
    one = len(between) == 1 and (between[0] in scene.small.joining or between[0] in scene.small.alternative)
    return "and" if one else ""


def _free_of(scene: Scene, place: int) -> bool:
    if "free_of" not in scene.by_what:
        return False
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    return any(one.what == "free_of" and 0 <= item.at - one.to <= _NEAR and "," not in tokens[one.to : item.at]
               for one in scene.back(place, 4))  # fmt: skip


def told_not_to_be(scene: Scene, place: int) -> bool:
    """Is a word for a kind of goods within what they are said not to be: "not a 12 V panel for a caravan"?"""
    if "without" not in scene.by_what:
        return False
    item, first = scene.items[place], scene.items[place]
    for one in scene.back(place):
        if one.clause != item.clause or item.at - one.to > _FAR:
            return False
        if one.what == "without":
            return first.at - one.to <= _NEAR
        if one.what not in _OF_A_KIND:
            return False
        first = one
    return False


def bound_to_none(scene: Scene) -> None:
    """Goods that are tied to no account raise no doubt about one; that one is not yet released from it still does."""
    places = scene.by_what.get("q:account_bound", [])
    if not places or "without" not in scene.by_what:
        return
    clauses = {scene.items[at].clause for at in places if scene.denied(at, behind=False) and _is_tie(scene, at)}
    kept = [at for at in places if scene.items[at].clause not in clauses]
    if kept:
        scene.by_what["q:account_bound"] = kept
    else:
        del scene.by_what["q:account_bound"]


def _is_tie(scene: Scene, place: int) -> bool:
    """Is it the tie that is denied, not that anybody undid it or knows the way in?"""
    item = scene.items[place]
    near = scene.tokens[item.field][max(item.at - _AROUND, 0) : item.to + _AROUND]
    return any(word.startswith(scene.small.tied) for word in near) and not any(
        word.startswith(scene.small.released) for word in near
    )
