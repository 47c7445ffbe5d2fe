"""Are goods only told of beside those that are sold: "inverter, ran two panels", "panel, I bought a new inverter"?

Asked only where panels and inverters are both named, so that one of them may be no more than what the other met.
"""

from itertools import takewhile

from service.core.adverts.also_wanted import is_looked_for
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_BOTH = PANELS | INVERTERS
_BETWEEN = frozenset(("each", "used", "unused", "new", "new_not", "several", "piece", "part", "old_ones", "power",
                      "count", "times", "bifacial", "for", "used_beside", "range", "t:mono", "t:poly"))  # fmt: skip
_LEFT_OUT = frozenset(("used_beside", "without"))
_GETTING = frozenset(("bought", "changes"))
_ALONG = frozenset(("plus", "per_set", "set_one", "set_many"))
_PARTS = frozenset((".", "!", "?", "\n", ";", ",", ":", "("))
_FARTHEST, _TO_ADJECTIVE, _TO_VERB, _TO_SOLD = 7, 3, 5, 5


def is_only_mentioned(scene: Scene, place: int) -> bool:
    """Is it the partner in use, one that is looked for, sold already or left out, or what the seller got instead?"""
    item = scene.items[place]
    if item.what in INVERTERS and is_looked_for(scene, place):
        return True
    if not _LEFT_OUT.isdisjoint(scene.near(place, 6, 0)) and _behind(scene, place, item):
        return True
    if "sold" in scene.near(place, 0, 5) and _is_sold(scene, place, item) and _other_before(scene, item):
        return True
    low = item.at - _TO_ADJECTIVE
    if scene.small.another.isdisjoint(scene.tokens[item.field][low if low > 0 else 0 : item.to + 1]):  # noqa: FURB136
        return False
    return _is_another(scene, place, item) and _other_before(scene, item)


def _behind(scene: Scene, place: int, item: Item) -> bool:
    """Does "ran with", "was on" or "without" stand before it, with nothing but their number and kind between?"""
    at = item.at
    for one in scene.back(place, 6):
        if one.clause != item.clause or item.at - one.to > _FARTHEST or at - one.to > _TO_ADJECTIVE:
            return False
        if one.what in _LEFT_OUT:
            return one.to <= item.at
        if one.what not in _BETWEEN and not (one.what == NUMBER and one.unit in {"", "W"}):
            return False
        at = one.at
    return False


def _is_sold(scene: Scene, place: int, item: Item) -> bool:
    """Is it said behind it, in its clause, that they are sold: "the panels are sold already"?"""
    tokens = scene.tokens[item.field]
    for one in scene.ahead(place, 5):
        if one.clause != item.clause or one.at - item.to > _TO_SOLD or one.what in _BOTH or one.what in _ALONG:
            return False
        if one.what == "sold":
            return one.to >= len(tokens) or tokens[one.to] not in scene.small.sold_manner
    return False


def _is_another(scene: Scene, place: int, item: Item) -> bool:
    """Is it a new or a greater one that the seller has got, or that the old ones do not suit?"""
    small, tokens = scene.small, scene.tokens[item.field]
    before = list(
        takewhile(lambda word: word not in _PARTS, reversed(tokens[max(item.at - _TO_ADJECTIVE, 0) : item.at]))
    )
    behind = tokens[item.to : item.to + 1]
    ahead = not small.another.isdisjoint(before)
    if not ahead and small.another.isdisjoint(behind):
        return False
    near = [one for one in (*scene.back(place, 8), *scene.ahead(place, 5)) if one.clause == item.clause]
    if any(one.what in _ALONG for one in near):
        return False
    for one in near:
        if one.what in _GETTING and one.to <= item.at and item.at - one.to <= _TO_VERB:
            return True
        if one.what in _GETTING and ahead and 0 <= one.at - item.to <= 2:  # where verbs stand last
            return True
    return ahead and not small.known_one.isdisjoint(before)


def _other_before(scene: Scene, item: Item) -> bool:
    """Are goods of the other kind named before it in another clause, and none in its own?"""
    others = INVERTERS if item.what in PANELS else PANELS
    named = [scene.items[at] for what in others for at in scene.by_what.get(what, [])]
    if any(one.clause == item.clause for one in named):
        return False
    return any((one.field, one.at) < (item.field, item.at) for one in named)


def told_for_panels(scene: Scene, title: list[int], panels: list[int]) -> bool:
    """Do panels that the text calls those it is for stand in a title directly behind an inverter: "inverter 2 panels"?

    ``title``: places of its inverters; ``panels``: places of all panels that seem to be offered.
    """
    if not title or not scene.tells("for", "takes") or any(scene.items[at].field for at in panels):
        return False
    if not any(scene.items[scene.by_what[what][-1]].field for what in scene.by_what.keys() & PANELS):
        return False
    inverter, panel = scene.items[title[-1]], scene.items[panels[0]]
    between = [one for one in scene.back(panels[0], 4) if one.at >= inverter.to]
    return 0 <= panel.at - inverter.to <= _TO_ADJECTIVE and all(one.what == NUMBER for one in between)
