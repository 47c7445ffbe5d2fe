"""Is damage told of a neighbour's panels, and the seller's are whole: "hail smashed the neighbour's, mine are fine"?"""

from collections.abc import Set

from service.core.adverts.asked_roles import THEIRS
from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_SENTENCE = frozenset(".;!?\n")
_BEFORE, _BEHIND, _TO_MINE = 10, 8, 14  # pieces
_MOST_TOLD = 40  # more faults no seller tells


def leave_out_damage_of_others(scene: Scene, faults: Set[str]) -> None:
    """Of these meanings goes what a neighbour's panels are told to have."""
    if not scene.field_roles[1] & THEIRS or not scene.pieces[1].places(THEIRS, scene.small.strangers):
        return
    told = scene.places(faults)[:_MOST_TOLD]
    gone = {at for at in told if _of_stranger(scene, scene.items[at])}
    for what in scene.by_what.keys() & faults if gone else ():
        scene.by_what[what] = [at for at in scene.by_what[what] if at not in gone]


def _of_stranger(scene: Scene, item: Item) -> bool:
    """Does a stranger stand in its sentence, and behind both that the seller's have nothing?"""
    if item.field != 1:
        return False
    tokens, small = scene.tokens[1], scene.small
    for at in range(max(item.at - _BEFORE, 0), min(item.to + _BEHIND, len(tokens))):
        if tokens[at] in small.strangers and _SENTENCE.isdisjoint(tokens[min(at, item.at) : max(at, item.to)]):
            to = max(at + 1, item.to)
            return _are_whole(scene, to) and small.mine.isdisjoint(tokens[min(at, item.at) : to])
    return False


def _are_whole(scene: Scene, to: int) -> bool:
    """Does it go on with "mine", "these", "here", and that they are whole or not so?"""
    small = scene.small
    behind = scene.tokens[1][to : to + _TO_MINE]
    at = next((at for at, word in enumerate(behind) if word in small.mine or word in small.these_here), None)
    if at is None:
        return False
    noes = (scene.items[place] for place in scene.by_what.get("without", ()))
    low, high = to + max(at - 2, 0), to + _TO_MINE
    return not small.unbroken.isdisjoint(behind) or any(one.field == 1 and low <= one.at < high for one in noes)
