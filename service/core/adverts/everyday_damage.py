"""Is damage told in everyday words: water under the glass, a star from a stone, half the power, no current any more?

Each is told by words of two kinds in one clause, in whatever order. Weak panels have no defect of a name of their own:
they are damaged goods.
"""

from bisect import bisect_left

from service.core.adverts.asked_roles import HARMS
from service.core.adverts.scene import Scene

_ENDS = frozenset(".,;:!?()\n")
_SENTENCE = frozenset(".;!?\n")
_FAR, _TO_VERB, _TO_ONE, _TO_NOTHING = 12, 4, 8, 4  # pieces
_MOST_TOLD = 40  # more of them no seller tells
_GLASS = "p:glass"
_WEAK, _DEAD, _CRACKED, _DELAMINATED = "d:weak", "d:dead", "d:cracked_glass", "d:delamination"


def add_everyday_damage(scene: Scene, kind: str) -> None:
    """Adds defects, and ``d:weak``, of panels."""
    if kind not in {"panel", "set"} or not scene.field_roles[1] & HARMS:
        return
    tokens, small = scene.tokens[1], scene.small
    for at in scene.pieces[1].places(HARMS, small.harms)[:_MOST_TOLD]:
        word, what = tokens[at], ""
        if word in small.wet:
            what = _DELAMINATED if _under_glass(scene, at) else ""
        elif word in small.stars:
            what = _CRACKED if _in_glass(scene, at) else ""
        elif word in small.halves:
            what = _WEAK if _gives_half(scene, at) else ""
        elif word in small.diodes:
            what = _WEAK if _are_gone(scene, at) else ""
        elif word in small.nothing or word in small.stopped:
            what = _DEAD if _gives_nothing(scene, at) else ""
        if what:
            _add(scene, what, at)


def _clause(tokens: list[str], at: int, ends: frozenset[str] = _ENDS) -> tuple[int, int]:
    """From and to which piece the clause of a piece goes, as far as it is near."""
    low = high = at
    while low and at - low < _FAR and tokens[low - 1] not in ends:
        low -= 1
    while high < len(tokens) and high - at < _FAR and tokens[high] not in ends:
        high += 1
    return low, high


def _denied(scene: Scene, low: int, high: int) -> bool:
    """Does a "no" stand between two pieces?"""
    noes = (scene.items[at] for at in scene.by_what.get("without", ()))
    return any(one.field == 1 and low <= one.at < high for one in noes)


def _glass_between(scene: Scene, low: int, high: int) -> bool:
    glass = (scene.items[at] for at in scene.by_what.get(_GLASS, ()))
    return any(one.field == 1 and low <= one.at < high for one in glass)


def _under_glass(scene: Scene, at: int) -> bool:
    """As in "water has got in under the glass", "unter das Glas ist Wasser gekommen"?"""
    tokens, small = scene.tokens[1], scene.small
    low, high = _clause(tokens, at)
    if small.beneath.isdisjoint(tokens[low:high]) or not small.runs_off.isdisjoint(tokens[low:high]):
        return False
    return _glass_between(scene, low, high) and not _denied(scene, low, high)


def _in_glass(scene: Scene, at: int) -> bool:
    """As in "the glass of one has a star", "like a spider's web"?"""
    low, high = _clause(scene.tokens[1], at)
    return _glass_between(scene, low, high) and not _denied(scene, low, high)


def _gives_half(scene: Scene, at: int) -> bool:
    """As in "one of the two makes only half", not in winter, and not half of a price or of what a house needs?"""
    tokens, small = scene.tokens[1], scene.small
    low, _ = _clause(tokens, at)
    first, last = _clause(tokens, at, _SENTENCE)
    if not small.dim_times.isdisjoint(tokens[first:last]) or _denied(scene, low, at):
        return False
    verbs = [to for to in range(max(low, at - _TO_VERB), at) if tokens[to] in small.yields]
    if not verbs:
        return False
    behind = tokens[at + 1 : at + 1 + _TO_NOTHING]
    if not (small.energy.isdisjoint(behind) and small.of_my_needs.isdisjoint(behind)):
        return False
    return not small.ones.isdisjoint(tokens[max(low, verbs[-1] - _TO_ONE) : verbs[-1]])


def _are_gone(scene: Scene, at: int) -> bool:
    """As in "two of the bypass diodes have gone"?"""
    tokens, small = scene.tokens[1], scene.small
    low, high = _clause(tokens, at)
    broken = (scene.items[place] for what in ("s:broken", _DEAD) for place in scene.by_what.get(what, ()))
    told = not small.blown.isdisjoint(tokens[low:high]) or any(
        one.field == 1 and low <= one.at < high for one in broken
    )
    return told and not _denied(scene, low, high)


def _gives_nothing(scene: Scene, at: int) -> bool:
    """As in "since spring they give nothing", "stopped giving current", not "it gives nothing at night"?"""
    tokens, small = scene.tokens[1], scene.small
    low, high = _clause(tokens, at)
    near = tokens[max(low, at - _TO_NOTHING) : min(high, at + 1 + _TO_NOTHING)]
    if small.yields.isdisjoint(near):
        return False
    if tokens[at] in small.stopped:
        return not (small.current_of.isdisjoint(near) or _denied(scene, low, at))
    return not small.since.isdisjoint(tokens[low:high]) and small.nothing_to.isdisjoint(tokens[at + 1 : at + 3])


def _add(scene: Scene, what: str, at: int) -> None:
    """At the item of the text that is nearest in the sentence, which a "no" denies no longer."""
    items = scene.items
    place = bisect_left(items, (1, at), key=lambda one: (one.field, one.at))
    beside = [one for one in (place - 1, place) if 0 <= one < len(items) and items[one].field == 1]
    if not beside:
        return
    low, high = _clause(scene.tokens[1], at, _SENTENCE)
    within = [one for one in beside if low <= items[one].at < high]
    best = min(within or beside, key=lambda one: abs(items[one].at - at))
    scene.by_what.setdefault(what, []).append(best)
    scene.denials = scene.denials - {best}
