"""Is an inverter told to fail: "switches off after ten minutes", "red light blinks", "only hums and gives nothing"?

That it is off at night or when the mains fail is no fault, nor that a manual explains what its codes mean. Of panels
nothing of the kind is said.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.stretch import stretch_around
from service.core.adverts.walk import Item

_FAILING, _SIGN, _GOES_OFF, _SPLIT, _DEAD = "failing", "fault_sign", "goes_off", "goes_off_split", "d:dead"
_CLAUSE_ENDS = frozenset(".,;:!?()\n|•-")
_SENTENCE_ENDS = frozenset(".!?\n")
_REACH, _DIRECT, _TO_VERB, _TO_OLD = 16, 2, 4, 5  # pieces


def add_failing(scene: Scene, kind: str) -> None:
    """Where that is said of an inverter or a set, it is dead: it does not work as it should."""
    if kind not in {"inverter", "set"} or not scene.tells(_FAILING, _SIGN, _GOES_OFF, _SPLIT):
        return
    places = scene.said(_FAILING) + [at for at in scene.said(_SIGN) if _shows(scene, scene.items[at])]
    for place in (*scene.said(_GOES_OFF), *scene.said(_SPLIT)):
        item = scene.items[place]
        if (item.what == _GOES_OFF or _off(scene, item)) and not scene.small.amiss.isdisjoint(_sentence(scene, item)):
            places.append(place)
    places = [at for at in places if not _rightly(scene, at)]
    if places:
        scene.by_what.setdefault(_DEAD, []).extend(places)


def _shows(scene: Scene, item: Item) -> bool:
    """Is it said that it shows such a code or light, directly beside: "a manual lists all error codes" says nothing?"""
    tokens = scene.tokens[item.field]
    low, high = stretch_around(tokens, item.at, item.to, _TO_VERB, _CLAUSE_ENDS)
    return not scene.small.showing_now.isdisjoint(tokens[low:high])


def _rightly(scene: Scene, place: int) -> bool:
    """Is it as it should be, explained, only supposed, or what never happens, by the words of its sentence?"""
    small, words = scene.small, _sentence(scene, scene.items[place])
    if not (small.rightly_off.isdisjoint(words) and small.explained.isdisjoint(words) and small.ever.isdisjoint(words)):
        return True
    item = scene.items[place]
    if not small.old_things.isdisjoint(scene.tokens[item.field][max(item.at - _TO_OLD, 0) : item.at]):
        return True  # "my old one kept showing an error"
    return "if" in scene.by_what and scene.in_sentence(item.sentence, "if")


def _off(scene: Scene, item: Item) -> bool:
    """Does the other part of the verb stand directly behind it or where its clause ends: "schaltet ständig ab"?"""
    tokens = scene.tokens[item.field]
    for at in range(item.to, min(item.to + _REACH, len(tokens))):
        if tokens[at] in _CLAUSE_ENDS:
            return False
        if tokens[at] in scene.small.off_words and (
            at < item.to + _DIRECT or not tokens[at + 1 : at + 2] or tokens[at + 1] in _CLAUSE_ENDS
        ):
            return True
    return False


def _sentence(scene: Scene, item: Item) -> list[str]:
    """The words of its sentence, as far as they stand near."""
    tokens = scene.tokens[item.field]
    low, high = stretch_around(tokens, item.at, item.to, _REACH, _SENTENCE_ENDS)
    return tokens[low:high]
