"""Do several panels give no current any more: "they no longer give current", "since last winter they give none"?

At night, in the shade and without an inverter no panel does; a neighbour's, or the old ones before them, are not sold.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.stretch import stretch_around
from service.core.adverts.walk import Item

_NO_CURRENT, _DEAD = "no_current", "d:dead"
_OTHERS = frozenset(("old_ones", "inverter_one", "inverter_many"))
_SENTENCE_ENDS = frozenset(".!?;\n")
_REACH, _HOUR = 14, 2  # pieces; signs


def add_no_current(scene: Scene, kind: str) -> None:
    """Where that is said of panels or of a set, they are dead."""
    if kind not in {"panel", "set"} or _NO_CURRENT not in scene.by_what:
        return
    places = [at for at in scene.said(_NO_CURRENT) if _told(scene, at, scene.items[at])]
    if places:
        scene.by_what.setdefault(_DEAD, []).extend(places)


def _told(scene: Scene, place: int, item: Item) -> bool:
    """Is it so since then, or no longer, and not only now and then, or of others?"""
    small, words = scene.small, _sentence(scene, item)
    if small.by_now_none.isdisjoint(words) or not small.not_now.isdisjoint(words):
        return False
    if not small.strangers.isdisjoint(words) or any(_at_hour(words, at) for at in range(len(words) - 1)):
        return False
    near = (*scene.back(place, 8), *scene.ahead(place, 4))
    return not any(one.what in _OTHERS and one.sentence == item.sentence for one in near)


def _at_hour(words: list[str], at: int) -> bool:
    """As in "from 20 o'clock on"?"""
    return words[at + 1].isdigit() and len(words[at + 1]) <= _HOUR


def _sentence(scene: Scene, item: Item) -> list[str]:
    """The words of its sentence, as far as they stand near."""
    tokens = scene.tokens[item.field]
    low, high = stretch_around(tokens, item.at, item.to, _REACH, _SENTENCE_ENDS)
    return tokens[low:high]
