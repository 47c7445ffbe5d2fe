"""Is payment before the goods asked for, or not needed, or only after a look: "look first, then transfer"?

Two denials ask for it: "no postage without payment in advance".
"""

from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

PAID_FIRST = "q:paid_first"  # asked for by two denials
_PAYMENT = "q:advance_payment"
_SENDING = frozenset(("refused", "shipping"))
_BEHIND, _TO_THEN, _TO_LOOK, _TO_LACKING = 5, 2, 6, 2  # pieces
_TO_NO = 6  # items
_TO_NOTHING, _TO_NONE = 4, 2
_PARTS = frozenset((",", ";", ".", ":", "!", "?", "\n", "(", ")", "|"))
_ENDS = _PARTS - {","}


def leave_out_undemanded(scene: Scene) -> None:
    """Payment before the goods that is said not to be needed, or to come after a look at them, raises no doubt."""
    places = scene.by_what.get(_PAYMENT)
    if not places:
        return
    paid_first = [at for at in places if _is_condition(scene, at)]
    if paid_first:
        scene.by_what[PAID_FIRST] = paid_first
    kept = [at for at in places if not (_undemanded(scene, scene.items[at]) or _after_look(scene, scene.items[at]))]
    if kept:
        scene.by_what[_PAYMENT] = kept
    else:
        del scene.by_what[_PAYMENT]


def _is_condition(scene: Scene, place: int) -> bool:
    """Does "without" stand before it, and another "no" before that or behind it: "ohne Vorkasse kein Versand"?

    Behind a comma only a "no" to sending goes with it.
    """
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    lacking = next((at for at in range(item.at - 1, item.at - 1 - _TO_LACKING, -1) if tokens[at] in small.lacking), -1)
    if lacking < 0:
        return False
    for one in scene.back(place, _TO_NO):
        if one.to <= lacking and _is_no(scene, one):
            return _PARTS.isdisjoint(tokens[one.to : lacking])
    for one in scene.ahead(place, _TO_NO):
        between = tokens[item.to : one.at]
        if one.at >= item.to and _is_no(scene, one) and _ENDS.isdisjoint(between):
            near = range(one.at, one.to + _TO_LACKING)
            return "," not in between or one.what == "refused" or any(
                scene.stands("shipping", one.field, at) for at in near)  # fmt: skip
    return False


def _is_no(scene: Scene, one: Item) -> bool:
    return one.what == "refused" or (
        one.what == "without" and scene.tokens[one.field][one.at] not in scene.small.lacking
    )


def sent_when_paid(scene: Scene) -> bool:
    """Is it said that they are sent only if paid for before?"""
    sentences = {scene.items[at].sentence for at in scene.by_what.get(PAID_FIRST, [])}
    return any(scene.in_sentence(sentence, what) for sentence in sentences for what in _SENDING)


def _undemanded(scene: Scene, item: Item) -> bool:
    """As in "is not needed", "mache ich nicht": a "no" before a word for demanding behind it, or at the end."""
    small, tokens = scene.small, scene.tokens[item.field]
    before = list(takewhile(lambda word: word not in _PARTS, reversed(tokens[max(item.at - _TO_NOTHING, 0) : item.at])))
    if not small.nothing.isdisjoint(before):
        return True  # "nothing up front", "rien à payer d'avance"
    if not small.label_none.isdisjoint(before[:_TO_NONE]):
        return True  # "no money up front"
    behind = tokens[item.to : item.to + _BEHIND]
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
