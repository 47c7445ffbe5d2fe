"""Does a seller tell what is looked for: nothing in exchange, one once, what the reader looks for, bigger ones now?"""

from itertools import takewhile

from service.core.adverts.asked_for import asks_a_buyer
from service.core.adverts.buyers import is_bid
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many"))
_BEFORE, _BEHIND, _TO_SWAP = 3, 2, 4


def looks_for_none(scene: Scene, place: int) -> bool:
    """Does a word for looking tell of no goods that the writer looks for?

    What he looked for once, what others look for and the bigger ones that he looks for now are told by sellers and
    by buyers, so an amount that is asked must stand in another sentence.
    """
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    if asks_a_buyer(scene, place):
        return True
    if not small.nothing.isdisjoint(_alike(tokens[item.to : item.to + _BEHIND])):
        return True
    if _no_swap(scene, place, item):
        return True
    before = set(_alike(tokens[max(item.at - _BEFORE, 0) : item.at][::-1]))
    if small.looked_once.isdisjoint(before) and small.looks_himself.isdisjoint(before):
        behind = _alike(tokens[item.to : item.to + _BEHIND])
        if small.greater.isdisjoint(behind) or not (item.field and _counted_in_title(scene)):
            return False
    return _is_priced(scene, item)


def _alike(words: list[str]) -> list[str]:
    """Words up to the next sign; a stroke above is none."""
    return list(takewhile(lambda word: word.isalnum() or word == "'", words))


def _no_swap(scene: Scene, place: int, item: Item) -> bool:
    """Is it said that no exchange is looked for: "looking for no swaps"?"""
    if not scene.tells("swap", "taker"):
        return False
    denied = False
    for one in scene.ahead(place, _TO_SWAP):
        if one.clause != item.clause or one.what in _GOODS:
            return False
        denied = denied or one.what == "without"
        if one.what in {"swap", "taker"}:
            return denied
    return False


def _counted_in_title(scene: Scene) -> bool:
    """Does the title tell goods with their number or watts, as that of a seller does?"""
    title = {item.what for item in scene.items if not item.field}
    return NUMBER in title and not title.isdisjoint(_GOODS) and not title & {"wanted", "needed"}


def _is_priced(scene: Scene, item: Item) -> bool:
    """Does an amount that is no bid stand in another sentence, or in the price field?"""
    amounts = [scene.items[at] for unit in scene.units.keys() & MONEY_UNITS for at in scene.units[unit]]
    if scene.tells("bid") or any(is_bid(scene, one) for one in amounts):
        return False
    return bool(scene.price) or any(one.sentence != item.sentence for one in amounts)
