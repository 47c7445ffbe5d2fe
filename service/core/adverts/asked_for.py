"""Who is asked: whether somebody sells such goods ("Is anyone selling two panels?"), or a buyer what he looks for?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, MONEY_UNITS, Item

_ENDS = frozenset((".", "!", "?", "\n", ";"))
_SELLING = frozenset(("sells", "selling"))
_TO_YOU = frozenset(("are", "you", "still", "ben", "bent", "u", "je", "jij", "jullie", "zijn", "nog", "always", "also",
                     "suchst", "du", "sie", "noch", "vous", "tu", "est"))  # fmt: skip
_HELPERS = frozenset(("who", "anyone", "anybody", "someone", "somebody", "wie", "iemand", "wer", "jemand", "qui",
                      "quelqu", "please", "graag", "help"))  # fmt: skip
_PAYING = frozenset(("pay", "paying", "budget", "betaal", "betalen", "spend", "offer", "zahle", "bied"))
_GOODS = ("panel_", "inverter_", "set_")
_FARTHEST = 40  # pieces to the end of a question


def is_asked_for(scene: Scene) -> bool:
    """Does a question hold somebody and a word for selling, while nothing is sold or priced elsewhere?"""
    for place in scene.by_what.get("someone", ()):
        item = scene.items[place]
        near = (*scene.back(place), *scene.ahead(place))
        if any(one.what in _SELLING for one in near) and _is_question(scene, item) and not _priced(scene, item):
            return not any(scene.items[at].sentence != item.sentence for at in scene.by_what.get("selling", ()))
    return False


def asks_a_buyer(scene: Scene, item: Item) -> bool:
    """Does a seller ask what the reader looks for, with goods at a price behind it: "Looking for panels? 12 at £18"?"""
    tokens = scene.tokens[item.field]
    start = item.at
    while start and tokens[start - 1] not in _ENDS and item.at - start < len(_TO_YOU):
        start -= 1
    end = next((at for at in range(item.to, min(item.to + _FARTHEST, len(tokens))) if tokens[at] in _ENDS), 0)
    if not end or tokens[end] != "?" or not _TO_YOU.issuperset(tokens[start : item.at]):
        return False
    if not _HELPERS.isdisjoint(tokens[item.to : end]) or not _PAYING.isdisjoint(tokens[end:]):
        return False
    rest = [one for one in scene.items if one.field > item.field or (one.field == item.field and one.at > end)]
    priced = bool(scene.price) or any(one.unit in MONEY_UNITS for one in rest)
    return priced and any(one.unit == "W" or one.what.startswith(_GOODS) for one in rest)


def _is_question(scene: Scene, item: Item) -> bool:
    tokens = scene.tokens[item.field]
    return next((word for word in tokens[item.to : item.to + _FARTHEST] if word in _ENDS), "") == "?"


def _priced(scene: Scene, item: Item) -> bool:
    """Is an amount of money told outside the question?"""
    return any(scene.items[at].sentence != item.sentence for unit in CURRENCIES for at in scene.units.get(unit, ()))
