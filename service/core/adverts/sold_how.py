"""Does "sold" tell how goods on offer are sold, not that they are gone: "sold with cable", "werden verkauft"?"""

from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.sold_of import apart
from service.core.adverts.walk import Item

_PARTS = frozenset(".,;!?\n|:(")
_TO_VERB, _AHEAD = 14, 4


def stays(scene: Scene, item: Item, gone: Item) -> bool:
    """Are goods, near which a word for gone stands, on offer all the same?"""
    return apart(scene, item, gone) or is_how(scene, gone)


def is_gone_behind(scene: Scene, place: int) -> bool:
    """Is it said behind goods, in their clause, that they are sold?"""
    clause = scene.items[place].clause
    return any(
        one.what == "sold" and one.clause == clause and not is_how(scene, one) for one in scene.ahead(place, _AHEAD)
    )


def is_how(scene: Scene, gone: Item) -> bool:
    """Is it a word for sold by itself, with the manner behind it or "is being" before it, and not denied?"""
    if gone.to - gone.at > 1 or not scene.stands("sold", gone.field, gone.at):
        return False
    small, tokens = scene.small, scene.tokens[gone.field]
    behind = tokens[gone.to : gone.to + 3]
    if not small.sold_how.isdisjoint(behind[:1]):
        return True
    if not small.sold_manner.isdisjoint(behind[:1]) and not small.sold_lot.isdisjoint(behind[1:]):
        return True
    before = takewhile(lambda word: word not in _PARTS, reversed(tokens[max(gone.at - _TO_VERB, 0) : gone.at]))
    return not small.being_sold.isdisjoint(before) and not _denied(scene, gone)


def _denied(scene: Scene, gone: Item) -> bool:
    """Does a "no" stand before it in its clause: "will not be sold"?"""
    said = (scene.items[at] for at in scene.by_what.get("without", []))
    return any(one.clause == gone.clause and one.at < gone.at for one in said)
