"""Is a figure told of several together, of all inputs of an inverter or of panels in a row; and what has one of them?

As in "25 A in all (12.5 A per input)", "120 V (2 x 60 V)", "74 V in series". A total that is read as the limit of one
input would make panels fit that do not, so where it is not told what one has, nothing is read.
"""

from bisect import bisect_left
from typing import NamedTuple

from service.core.adverts.all_inputs import MOST_OF_ONE_A, all_inputs_named, told_of_each
from service.core.adverts.asked_roles import OF_SEVERAL
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_PARTS = frozenset((",", ";", "|", "\n", "!", "?", "•"))
_OTHER_NAMES = frozenset(("start", "tracking", "input_range", "isc", "imp", "vmp", "voc", "max_sc", "system", "battery",
                          "ac_out", "output_current", "input_current"))  # fmt: skip
_INPUTS = frozenset(("inputs", "tracking", "input_current"))
_OF_OTHERS = frozenset(("power", "ac_out", "price", "weight", "dc_power", "surge", "limited"))
_PARTING = frozenset((".", ",", ";", "(", "-", "|", "\n"))  # before a word that stands alone
_ENDING = frozenset((".", ",", ";", ")", "|", "\n", "!"))
_UNITS, _UNITS_OF_INVERTERS = ("A", "V"), ("A", "V", "W")
_FIGURES = 3  # behind a total, among which what one has stands
_FEWEST_TIMES, _MOST_TIMES = 1.5, 4.5  # not rounded: one inverter has two to four inputs
_LIKE_SHARE = 0.01
_SHORTENED = 4  # signs of a word behind which a point ends nothing: "max."
_PART, _TO_ONE, _NEAR, _BESIDE, _TO_TOTAL = 9, 14, 3, 2, 6  # pieces


class Together(NamedTuple):
    """Places of what several have together; and the place of such a total by that of what one of them has."""

    of_all: frozenset[int]
    total_of: dict[int, int]


NOTHING = Together(frozenset(), {})


def told_together(scene: Scene, kind: str) -> Together:
    """The totals among the volts and amperes, of an inverter also among its watts."""
    units = _UNITS_OF_INVERTERS if kind == "inverter" else _UNITS
    if scene.units.keys().isdisjoint(units):
        return NOTHING
    marks = _words_of_several(scene)
    of_inputs = kind != "panel"
    if not (marks or of_inputs):
        return NOTHING
    of_all: set[int] = set()
    total_of: dict[int, int] = {}
    for unit in units:
        places = scene.units.get(unit, [])
        if len(places) < 2 and not marks:
            continue
        for number, place in enumerate(places):
            item = scene.items[place]
            near = bool(marks) and _any_near(marks[item.field], item)
            if not (near or of_inputs):
                continue
            split = any(_count(item, scene.items[at]) for at in places[number + 1 : number + 1 + _FIGURES])
            sums = number > 0 and of_inputs and _count(item, scene.items[places[number - 1]]) is not None
            if not (near or split or sums) or place in total_of or _times(scene, item) is not None:
                continue
            words = near and _told_of_several(scene, place, item, of_inputs)
            one = _of_one(scene, place, item) if split and (words or of_inputs) else None
            if unit == "W" and not (words and one is not None):
                continue
            if words or one is not None or (sums and _sum_before(scene, place, item)):
                of_all.add(place)
            if one is not None:
                total_of[one] = place
    return Together(frozenset(of_all), total_of) if of_all else NOTHING


def _words_of_several(scene: Scene) -> list[list[int]]:
    """Pieces of title and body where words for a total, for all inputs or a series stand, if any do."""
    if not scene.roles & OF_SEVERAL:
        return []
    small = scene.small
    words, two = small.of_several, small.two_of_inputs
    marks: list[list[int]] = [[], [], []]
    for field in (0, 1):
        tokens = scene.tokens[field]
        marks[field] = [at for at in scene.pieces[field].places(OF_SEVERAL, words)
                        if tokens[at] not in two or (at > 0 and tokens[at - 1] in small.the_inputs)]  # fmt: skip
    return marks if marks[0] or marks[1] else []


def _any_near(marks: list[int], item: Item) -> bool:
    first = bisect_left(marks, item.at - _PART)
    return first < len(marks) and marks[first] < item.to + _PART


def _times(scene: Scene, item: Item) -> int | None:
    """How many times a figure is told: 2 of "2 x 12.5 A", "12.5 A x 2"."""
    tokens, at, to = scene.tokens[item.field], item.at, item.to
    if at > 1 and tokens[at - 1] == "x" and tokens[at - 2].isdigit() and len(tokens[at - 2]) == 1:
        return int(tokens[at - 2])
    told = tokens[to : to + 1] == ["x"] and "".join(tokens[to + 1 : to + 2]).isdigit() and len(tokens[to + 1]) == 1
    return int(tokens[to + 1]) if told else None


def _count(total: Item, one: Item) -> int | None:
    """How many times one is the total, as far as an inverter can have so many inputs."""
    times = total.value / one.value if one.value > 0 else 0.0
    if not _FEWEST_TIMES <= times <= _MOST_TIMES:
        return None
    count = round(times)
    return count if abs(count * one.value - total.value) <= _LIKE_SHARE * total.value else None


def _of_one(scene: Scene, place: int, item: Item) -> int | None:
    """The place of what one has, told behind the total: "25 A (2 x 12.5 A)", "120 V, 60 V per input"."""
    own = {one.what for one in scene.back(place, 3)} & _OTHER_NAMES
    for step, one in enumerate(scene.ahead(place, 10), 1):
        if one.at - item.to > _TO_ONE:
            return None
        if one.what in _OTHER_NAMES - own and not (one.what in _INPUTS and _says_each(scene, one)):
            return None
        if one.what == NUMBER and one.unit == item.unit:
            count = _count(item, one)
            told = count is not None and (_times(scene, one) == count or _is_each(scene, place + step, one))
            return place + step if told and not _heads_range(scene, one) else None
        if one.what == NUMBER and one.unit:
            return None
    return None


def _heads_range(scene: Scene, one: Item) -> bool:
    behind = scene.tokens[one.field][one.to : one.to + 2]
    ranged = len(behind) > 1 and behind[0] in scene.small.volts_range and behind[1][:1].isdigit()
    return ranged and behind[0] != "."


def _says_each(scene: Scene, one: Item) -> bool:
    words = scene.tokens[one.field][max(one.at - 1, 0) : one.to]
    return not scene.small.for_each.isdisjoint(words)


def _is_each(scene: Scene, place: int, item: Item, but: int = -1) -> bool:
    """Is it said to be what each has? ``but``: a piece that tells nothing of it: "per" of "per entrambi"."""
    near = [one for one in scene.back(place, 6) if item.at - one.to <= _NEAR]
    near += [one for one in scene.ahead(place, 4) if one.at - item.to <= _NEAR]
    none = {one.to for one in near if one.what == "without"} | {but}  # "max. 16 A, not each"
    if any(one.what == "each" and one.at not in none for one in near):
        return True
    tokens, each = scene.tokens[item.field], scene.small.for_each
    places = (*range(max(item.at - _NEAR, 0), item.at), *range(item.to, min(item.to + _NEAR, len(tokens))))
    return any(tokens[at] in each and at not in none for at in places)


def _sum_before(scene: Scene, place: int, item: Item) -> bool:
    """Is it the sum of what stands before it: "2 x 12.5 A (25 A)"?"""
    for one in scene.back(place, 3):
        if one.what == NUMBER and one.unit == item.unit:
            times = _times(scene, one)
            return times is not None and times == _count(item, one) and item.at - one.to <= _NEAR
    return False


def _in_all(scene: Scene, place: int, item: Item, of_inputs: bool) -> bool:
    """Does a word for a total stand in its part of the sentence, and with no other figure?"""
    tokens, low, high = _part(scene, place, item)
    if not of_inputs:
        low, high = max(low, item.at - _BESIDE), min(high, item.to + _BESIDE)
    last = _figure_before(scene, place)
    for at in range(item.at - 1, low - 1, -1):
        if not _is_total(scene, tokens, at) or (tokens[at + 1][:1].isdigit() and at + 1 < item.at):
            continue
        apart = last is None or at - last.to > 1 or tokens[at - 1] == "." or tokens[at - 1] in _PARTS
        if last is None or apart or (last.unit == item.unit and last.value < item.value):
            return True
    for at in range(item.to, high):
        if _is_total(scene, tokens, at):
            return not _of_next(scene, place, item, at)
    return of_inputs and item.unit == "A" and _alone_behind(scene, tokens, item)


def _alone_behind(scene: Scene, tokens: list[str], item: Item) -> bool:
    """Is a word for a total all that stands in the next part: "28 A max. Gesamt.", but not "14 A max. Total 800 W"?"""
    at, small = item.to, scene.small
    while at < min(item.to + _BESIDE, len(tokens)) and tokens[at].isalpha() and tokens[at] not in small.for_each:
        at += 1
    near = tokens[at : at + _TO_TOTAL]
    begun = next((step for step, word in enumerate(near) if word not in _PARTING), len(near))
    if not begun:
        return False
    joined = begun < len(near) and (near[begun] in small.total_linking or near[begun] in small.in_before)
    total = begun + joined
    ended = total + 1 >= len(near) or near[total + 1] in _ENDING
    if total >= len(near) or near[total] not in small.together or not ended:
        return False
    return near[total] not in small.together_in or joined or item.value > MOST_OF_ONE_A  # "10.5 A. All"


def _told_of_several(scene: Scene, place: int, item: Item, of_inputs: bool) -> bool:
    """Do words tell that a figure is a total, of all inputs or of several in series?"""
    if item.unit == "A" and of_inputs and (_of_both(scene, place, item) or _in_parallel(scene, place, item)):
        return True
    return _in_all(scene, place, item, of_inputs) or (item.unit == "V" and _in_series(scene, place, item, of_inputs))


def _of_both(scene: Scene, place: int, item: Item) -> bool:
    """Are amperes told of both inputs or all, and not of each: "28 A across both inputs"?"""
    tokens, low, high = _part(scene, place, item)
    at = all_inputs_named(tokens, low, high, scene.small)
    if at < 0 or _is_each(scene, place, item, at - 1):
        return False
    return not told_of_each(tokens, low, at, item.at, item.value, scene.small)


def _in_parallel(scene: Scene, place: int, item: Item) -> bool:
    """Are they amperes of inputs in parallel, and not of each?"""
    tokens, low, high = _part(scene, place, item)
    words = scene.small.in_parallel
    return any(tokens[at] in words for at in range(low, high)) and not _is_each(scene, place, item)


def _is_total(scene: Scene, tokens: list[str], at: int) -> bool:
    """Is it such a word; "alt", "tout" only behind "i", "en"?"""
    word, small = tokens[at], scene.small
    if word not in small.together:
        return False
    if word not in small.together_in or (at > 0 and tokens[at - 1] in small.in_before):
        return True
    return at > 0 and tokens[at - 1] == "(" and list(tokens[at + 1 : at + 2]) == [")"]


def _of_next(scene: Scene, place: int, item: Item, at: int) -> bool:
    """Does a word behind a figure go on with another one: "14 A total output 800 W"?"""
    tokens = scene.tokens[item.field]
    if not scene.small.put_out.isdisjoint(tokens[at + 1 : at + 3]):
        return True
    parted = at + 1 < len(tokens) and tokens[at + 1] in _PARTS
    for one in scene.ahead(place, 8) if not parted else []:
        if one.at <= at:
            continue
        if one.at - at > _NEAR:
            return False
        if one.what in _OF_OTHERS:
            return True
        if one.what == NUMBER and one.unit == item.unit:
            return one.value > item.value
        if one.what == NUMBER and one.unit:
            return at > item.to
    return False


def _in_series(scene: Scene, place: int, item: Item, of_inputs: bool) -> bool:
    """Are they volts of several in series? Of an input, where no "no" stands there; of panels only directly beside."""
    tokens, low, high = _part(scene, place, item)
    if not of_inputs:
        low, high = max(low, item.at - _NEAR), min(high, item.to + _NEAR)
    small = scene.small
    for at in (*range(item.at - 1, low - 1, -1), *range(item.to, high)):
        if tokens[at] not in small.in_series:
            continue
        if tokens[at] in small.series_in and (at == 0 or tokens[at - 1] not in small.in_before):
            continue
        if not of_inputs and _of_cells(scene, place, at):
            continue
        if at >= item.to and _of_greater(scene, place, item):
            continue
        denied = any(low <= one.at < high for one in (*scene.back(place, 8), *scene.ahead(place, 8))
                     if one.what == "without")  # fmt: skip
        return not denied
    return False


def _of_cells(scene: Scene, place: int, at: int) -> bool:
    """Is it the cells that are in series: "54 cells in series, 37 V", "37 V in series of 54 cells"?"""
    clause = scene.items[place].clause
    if any(one.what == "cells" for one in scene.back(place, 4)):
        return True
    return any(one.what == "cells" and one.clause == clause and -_NEAR <= one.at - at <= _NEAR + 1
               for one in scene.ahead(place, 6))  # fmt: skip


def _of_greater(scene: Scene, place: int, item: Item) -> bool:
    """Does a figure follow that is some times as great, so that it is the one of several: "37 V, in series 74 V"?"""
    one = next((one for one in scene.ahead(place, 4) if one.what == NUMBER), None)
    return one is not None and one.unit == item.unit and one.at - item.to <= _NEAR + 1 and _count(one, item) is not None


def _part(scene: Scene, place: int, item: Item) -> tuple[list[str], int, int]:
    """From where to where the part of the sentence reaches in which a figure stands, back to the last other one."""
    tokens = scene.tokens[item.field]
    last = _figure_before(scene, place)
    before = 0 if last is None else last.to
    behind = next((one.at for one in scene.ahead(place, 6) if one.what == NUMBER and one.unit), len(tokens))
    low = item.at
    while low > max(before, item.at - _PART) and not _ends(tokens, low - 1):
        low -= 1
    high = item.to
    while high < min(behind, item.to + _PART, len(tokens)) and not (
        _ends(tokens, high) or (tokens[high] == "." and (high == item.to or _begins_anew(scene, item.field, high)))
    ):
        high += 1
    return tokens, low, high


def _figure_before(scene: Scene, place: int) -> Item | None:
    """The last figure with a unit before a place, whatever its sentence."""
    field = scene.items[place].field
    near = (scene.items[at] for at in range(place - 1, max(place - 10, -1), -1))
    return next((one for one in near if one.what == NUMBER and one.unit and one.field == field), None)


def _begins_anew(scene: Scene, field: int, at: int) -> bool:
    """Does a point behind a short word end a sentence: behind the name of an input, or before a capital?"""
    return scene.tokens[field][at - 1] in scene.small.never_cut_short or scene.pieces[field].titled(at + 1)


def _ends(tokens: list[str], at: int) -> bool:
    word = tokens[at]
    return word in _PARTS or (word == "." and at > 0 and len(tokens[at - 1]) > _SHORTENED)
