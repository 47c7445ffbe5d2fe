"""Is payment before the goods asked for, or not needed, or only after a look: "look first, then transfer"?"""

from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_PAYMENT = "q:advance_payment"
_BEHIND, _TO_THEN, _TO_LOOK = 5, 2, 6  # pieces
_PARTS = frozenset((",", ";", ".", ":", "!", "?", "\n", "(", ")", "|"))
_ENDS = _PARTS - {","}


def leave_out_undemanded(scene: Scene) -> None:
    """Payment before the goods that is said not to be needed, or to come after a look at them, raises no doubt."""
    places = scene.by_what.get(_PAYMENT)
    if not places:
        return
    kept = [at for at in places if not (_undemanded(scene, scene.items[at]) or _after_look(scene, scene.items[at]))]
    if kept:
        scene.by_what[_PAYMENT] = kept
    else:
        del scene.by_what[_PAYMENT]


def _undemanded(scene: Scene, item: Item) -> bool:
    """As in "is not needed", "mache ich nicht": a "no" before a word for demanding behind it, or at the end."""
    small = scene.small
    behind = scene.tokens[item.field][item.to : item.to + _BEHIND]
    words = list(takewhile(lambda word: word not in _PARTS, behind))
    if not small.undemanded.isdisjoint(words):
        return True
    no = next((at for at, word in enumerate(words) if word in small.no_payment), None)
    demanded = next((at for at, word in enumerate(words) if word.startswith(small.demanded)), None)
    if no is None or demanded is None:
        return False
    return no < demanded or no == len(words) - 1  # but "required no exceptions"


def _after_look(scene: Scene, item: Item) -> bool:
    """Does a "then" stand directly before it, and a word for looking at the goods before that?"""
    tokens, small = scene.tokens[item.field], scene.small
    before = tokens[max(item.at - _TO_THEN, 0) : item.at + 1]
    then = next((at for at, word in enumerate(reversed(before)) if word in small.only_then), None)
    if then is None:
        return False
    at = item.at - then
    earlier = takewhile(lambda word: word not in _ENDS, reversed(tokens[max(at - _TO_LOOK, 0) : at]))
    return any(word.startswith(small.looked_at) for word in earlier)
