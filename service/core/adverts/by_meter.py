"""Which figures has a meter or a test shown, so that they are no ratings: "tested: Voc 36.1 V", "measured 11 A"?

Where a sentence tells what the label says, too ("Isc 13.8 A on the label, measured 11 A"), that is the rating. Behind
ratings that are the label's, "(tested)" only tells that the goods work.
"""

from bisect import bisect_left, bisect_right

from service.core.adverts.asked_roles import TESTED
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.walk import NUMBER, Item

_NAMES = ("voc", "isc", "vmp", "imp")
_UNIT_OF = {"voc": "V", "vmp": "V", "isc": "A", "imp": "A"}
_UNITS = frozenset(("V", "A"))
_UNKNOWN = frozenset(("d:missing_label", "q:label_removed", "s:missing", "s:unreadable", "s:taken_off"))
_MEASURED = frozenset(("V", "A", "W"))
_ENDS = frozenset((".", "!", "?", "\n", ";", "•"))
_BEFORE, _BEHIND, _ALL = "before", "behind", "all"
_TO_COLON, _TO_DAY, _NEAR, _TO_NAME, _TO_LABEL = 7, 8, 3, 5, 12  # pieces, the last one items


def read_by_meter(scene: Scene) -> tuple[set[int], dict[str, int]]:
    """Places of readings; and those of what a label says beside them and no name stands before, by their rating."""
    gone = readings_of_tests(scene)
    read = {scene.items[place].sentence for place in scene.by_what.get("measured", [])}
    labelled: dict[str, int] = {}
    for place in numbers(scene) if read else []:
        item = scene.items[place]
        if item.sentence not in read or item.peak or not (item.unit in _MEASURED or _named_bare(scene, place)):
            continue
        if scene.in_sentence(item.sentence, "label") and _of_label(scene, place, item):
            name = _name_of_reading_before(scene, place, item)
            if name is not None:
                labelled.setdefault(name, place)
        else:
            gone.add(place)
    return gone, labelled


def _named_bare(scene: Scene, place: int) -> bool:
    """Does the name of a rating stand directly before a figure without a unit: "measured Isc 8.7"?"""
    return not scene.items[place].unit and scene.whats[place - 1] in _NAMES


def _of_label(scene: Scene, place: int, item: Item) -> bool:
    """Is it what the label says? The word in its clause tells, the nearest before it, else the nearest behind."""
    marks = [*scene.back(place, 16), None, *scene.ahead(place, 8)]
    middle = marks.index(None)
    before = [one for one in marks[:middle] if one is not None and one.what in {"label", "measured"}]
    behind = [one for one in marks[middle:] if one is not None and one.what in {"label", "measured"}]
    own = {one.what for one in (*before, *behind) if one.clause == item.clause}
    if len(own) == 1:
        return own == {"label"}
    if own:
        before = [one for one in before if one.clause == item.clause]
        behind = [one for one in behind if one.clause == item.clause]
        if before and behind and behind[0].at - item.to <= 1 < item.at - before[0].to:
            return behind[0].what == "label"
    return (before or behind)[0].what == "label" if before or behind else False


def _name_of_reading_before(scene: Scene, place: int, item: Item) -> str | None:
    """The name of a reading of the same unit, behind which the label's follows: "Voc 37.5 V measured, label 37.9"."""
    passed = False
    for one in scene.back(place, 10):
        if one.what == NUMBER and one.unit == item.unit:
            if passed:
                return None
            passed = True
        elif one.what in _NAMES and _UNIT_OF[one.what] == item.unit:
            return one.what if passed else None
    return None


def readings_of_tests(scene: Scene) -> set[int]:
    """Places of the volts and amperes that a test has shown; that goods were tested says nothing of their figures."""
    found: set[int] = set()
    if not scene.field_roles[1] & TESTED:
        return found
    if not (scene.tells(*_NAMES) or "V" in scene.units or "A" in scene.units):
        return found
    words = scene.tokens[1]
    told = scene.pieces[1].places(TESTED, scene.small.tested)
    figures = [place for place in numbers(scene) if scene.items[place].field == 1 and (
               scene.items[place].unit in _UNITS or _named_bare(scene, place))]  # fmt: skip
    if not figures:
        return found
    pieces = [scene.items[place].at for place in figures]
    done = high = 0
    first = last = 0  # which of the figures stand in the sentence and are not shown yet
    for at in told:
        if at >= high:  # each sentence is walked over once
            high = _sentence_end(words, at)
            first = bisect_left(pieces, _sentence_begin(words, at, done))
            last = bisect_left(pieces, high)
            done = high
        if first >= last:
            continue
        behind = bisect_right(pieces, at, first, last)
        shown = _shown(scene, words, at, high, figures[behind] if behind < last else -1)
        if shown == _BEHIND:
            found.update(figures[behind:last])
            last = behind
        elif shown == _BEFORE:
            if behind > first and not _from_label(scene, words, figures[first], figures[behind - 1], at):
                found.update(figures[first:behind])
            first = behind
        elif shown == _ALL:
            found.update(figures[first:last])
            first = last
    return found


def _shown(scene: Scene, words: list[str], at: int, high: int, behind: int) -> str:
    """Which figures of its sentence a word for a test at a piece tells of; ``behind``: the place of the next one."""
    colon = next((to for to in range(at + 1, min(at + 1 + _TO_COLON, high)) if words[to] == ":"), 0)
    if colon and behind >= 0 and not any(words[to][:1].isdigit() or words[to] == "," for to in range(at + 1, colon)):
        return _BEHIND if _begins(scene, colon + 1, behind) else ""
    if behind >= 0 and _directly(scene, words, at, scene.items[behind]):
        return _BEHIND
    if not scene.small.test_day.isdisjoint(words[at + 1 : min(at + 1 + _TO_DAY, high)]):
        return _ALL
    opened = words[max(at - _NEAR, 0) : at]
    if "(" in opened and not scene.small.test_day.isdisjoint(opened[opened.index("(") :]):  # "(heute getestet)"
        return _ALL
    bracket = at > 0 and words[at - 1] == "(" and words[at + 1 : at + 2] == [")"]
    return _BEFORE if bracket else ""


def _from_label(scene: Scene, words: list[str], first: int, last: int, test: int) -> bool:
    """Are figures up to a "(tested)" those of a label: "label: Voc 37 V (tested)", "Voc 37 V on the label (tested)"?

    ``first``, ``last``: the places of the first and the last of them; ``test``: the piece where that word stands.
    """
    if "label" not in scene.by_what or not _UNKNOWN.isdisjoint(scene.by_what):
        return False
    if any(one.what == "label" and one.at < test for one in scene.ahead(last, 4)):
        return True
    figures = False
    for step, one in enumerate(scene.back(first, _TO_LABEL), 1):
        if one.what == "label" and not scene.denied(first - step):
            return not figures or words[one.to : one.to + 1] == [":"]
        figures = figures or one.what == NUMBER
    return False


def _sentence_begin(words: list[str], at: int, least: int) -> int:
    """Where the sentence of a piece begins; a point before a figure ends none."""
    while at > least and not _ended(words, at - 1):
        at -= 1
    return at


def _sentence_end(words: list[str], at: int) -> int:
    while at < len(words) and not _ended(words, at):
        at += 1
    return at


def _ended(words: list[str], at: int) -> bool:
    word = words[at]
    return word in _ENDS and not (word == "." and words[at + 1 : at + 2] and words[at + 1][:1].isdigit())


def _begins(scene: Scene, at: int, place: int) -> bool:
    """Do figures of ratings begin there, or their names?"""
    item = scene.items[place]
    if item.at - at <= 1:
        return True
    before = [one for one in scene.back(place, 4) if one.at >= at and one.what in _NAMES]
    return bool(before) and before[-1].at - at <= 1


def _directly(scene: Scene, words: list[str], at: int, item: Item) -> bool:
    """Does the figure of a test stand right behind it: "tested 13 A", "getestet mit 36 V"?"""
    between = words[at + 1 : item.at] if item.at - at - 1 <= _NEAR else None
    return between is not None and scene.small.tested_with.issuperset(between)
