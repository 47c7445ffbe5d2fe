"""Is it another thing that is broken: "fence broken, so the panels go", "carton damaged", "our roof cracked"?"""

from service.core.adverts.asked_roles import FRAGILE_OTHERS, IN_THE_DARK
from service.core.adverts.broken_goods import is_packing
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS, Item

_BOX, _GLASS = "d:broken_junction_box", "d:cracked_glass"
_BROKEN = ("d:dead", _GLASS, "s:broken")
BROKEN = (*_BROKEN, _BOX)  # without one of these nothing is to be left out
_GOODS = PANELS | INVERTERS | {"set_one", "set_many", "piece"}
_ENDS = frozenset(".,;:!?()[]\n|/•*-+&=")
_BEFORE, _BEHIND, _PLACED, _BESIDE, _TO_DARK, _FROM_DARK, _IN_FULL = 5, 2, 2, 2, 4, 6, 3


def leave_out_other_broken(scene: Scene) -> None:
    """Such words go from what the advert tells, and what only holds without sun."""
    if scene.roles & IN_THE_DARK and "d:dead" in scene.by_what:
        _keep(scene, "d:dead", [at for at in scene.by_what["d:dead"] if not _in_the_dark(scene, scene.items[at])])
    if "s:broken" in scene.by_what and "unused" in scene.by_what:
        spare = {scene.items[at].sentence for at in scene.by_what["unused"] if _never_needed(scene, scene.items[at])}
        if spare:
            kept = [at for at in scene.by_what["s:broken"] if not _in(scene.items[at], spare)]
            _keep(scene, "s:broken", kept)
    if not scene.roles & FRAGILE_OTHERS:
        return
    for what in _BROKEN:
        if what in scene.by_what:
            _keep(scene, what, [at for at in scene.by_what[what] if not _of_thing(scene, at)])
    if _BOX in scene.by_what:
        _keep(scene, _BOX, [at for at in scene.by_what[_BOX] if not _is_carton(scene, scene.items[at])])


def _keep(scene: Scene, what: str, kept: list[int]) -> None:
    if kept:
        scene.by_what[what] = kept
    else:
        del scene.by_what[what]


def _is_carton(scene: Scene, item: Item) -> bool:
    """Is a box broken in which the goods came, not one that is named in full: "broken junction box"?"""
    return item.to - item.at < _IN_FULL and is_packing(scene, item)


def _never_needed(scene: Scene, item: Item) -> bool:
    """Are spare ones meant that were not needed: "spares only, never needed"?"""
    return not scene.small.needed_words.isdisjoint(scene.tokens[item.field][item.at : item.to])


def _in(item: Item, sentences: set[int]) -> bool:
    """Are they words such as "spares only" of one of these sentences?"""
    return item.to - item.at > 1 and item.sentence in sentences


def _in_the_dark(scene: Scene, item: Item) -> bool:
    """As in "no current at night", "at night it gives nothing"."""
    tokens, dark = scene.tokens[item.field], scene.small.in_the_dark
    if not dark.isdisjoint(tokens[item.to : item.to + _TO_DARK]):
        return True
    at = item.at - 1
    while at >= max(item.at - _FROM_DARK, 0) and tokens[at] not in _ENDS:
        if tokens[at] in dark:
            return True
        at -= 1
    return False


def _of_thing(scene: Scene, place: int) -> bool:
    """Does such a thing stand before it in its part of the sentence, nearer than goods, or directly behind it?"""
    item = scene.items[place]
    tokens, small = scene.tokens[item.field], scene.small
    one_word = item.to - item.at == 1
    if item.what == _GLASS and not one_word:  # it names the glass
        return False
    near = (*scene.back(place, 8), *scene.ahead(place, 4))
    goods = {at for one in near if one.what in _GOODS or one.what[:2] == "p:" for at in range(one.at, one.to)}
    for at in range(item.at - 1, max(item.at - _BEFORE, 0) - 1, -1):
        if tokens[at] in _ENDS or at in goods:
            break
        if tokens[at] in small.fragile_others:
            first = max(at - _PLACED, 0)
            if first and first < at and tokens[first] in _ENDS:
                first += 1
            if first < at and tokens[first] in small.articles_alike and (not first or tokens[first - 1] in _ENDS):
                first += 1  # "De lift", not "from the lift"
            return small.thing_placed.isdisjoint(tokens[first:at])
    if not one_word or not goods.isdisjoint(range(item.at - _BESIDE, item.at)):
        return False
    for at in range(item.to, min(item.to + _BEHIND, len(tokens))):
        if tokens[at] in _ENDS or at in goods or tokens[at] in small.thing_placed:
            return False
        if tokens[at] in small.fragile_others:
            return True
    return False
