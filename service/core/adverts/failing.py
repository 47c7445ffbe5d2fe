"""Is an inverter told to fail: "switches off after ten minutes", "red light blinks", "only hums and gives nothing"?

That it is off at night or when the mains fail is no fault. Of panels nothing of the kind is said.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_FAILING, _GOES_OFF, _SPLIT, _DEAD = "failing", "goes_off", "goes_off_split", "d:dead"
_CLAUSE_ENDS = frozenset(".,;:!?()\n|•-")
_SENTENCE_ENDS = frozenset(".!?\n")
_REACH, _DIRECT = 16, 2  # pieces


def add_failing(scene: Scene, kind: str) -> None:
    """Where that is said of an inverter or a set, it is dead: it does not work as it should."""
    if kind not in {"inverter", "set"} or not scene.tells(_FAILING, _GOES_OFF, _SPLIT):
        return
    places = scene.said(_FAILING)[:]
    for place in (*scene.said(_GOES_OFF), *scene.said(_SPLIT)):
        item = scene.items[place]
        if (item.what == _GOES_OFF or _off(scene, item)) and not scene.small.amiss.isdisjoint(_sentence(scene, item)):
            places.append(place)
    small = scene.small
    places = [at for at in places if small.rightly_off.isdisjoint(_sentence(scene, scene.items[at]))]
    if places:
        scene.by_what.setdefault(_DEAD, []).extend(places)


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
    low, high = item.at, item.to
    while low > max(item.at - _REACH, 0) and tokens[low - 1] not in _SENTENCE_ENDS:
        low -= 1
    while high < min(item.to + _REACH, len(tokens)) and tokens[high] not in _SENTENCE_ENDS:
        high += 1
    return tokens[low:high]
