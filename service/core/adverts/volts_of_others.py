"""Are greatest volts those that a connector, a cable, a battery or a whole system bears, and no input of an inverter?

As in "MC4 max. 1000 V", "solar cable max. 1500 V", "maximum system voltage 1500 V", "panels (max. 1500 V)". More than
what a plug-in inverter bears is an input's only where the words, or the volts at which it works, tell so.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

MOST_INPUT_V = 150.0  # of plug-in inverters
_ABOVE_WINDOW = 1.5  # times the upper end of the volts at which it works
_PARTS = frozenset((",", ";", "|", "\n", "!", "?", ")", "]", "•"))
_OPENS = frozenset("([")
_CURRENT = frozenset(("dc", "vdc", "udc", "cc", "vcc", "ucc"))
_OF_PV = frozenset(("pv", "upv", "uin", "vin"))
_FOR = frozenset(("for", "takes"))
_BEFORE, _BEHIND, _IN_BRACKET, _TO_BRACKET, _TO_HIGH = 10, 4, 12, 4, 3  # pieces
_MOST_RANGES = 40


def borne_by_others(scene: Scene, place: int, item: Item, kind: str) -> bool:
    """Are greatest volts told of something else than an input, or more than one bears where nothing tells of one?"""
    if _of_battery(scene, item) or (kind == "set" and _beside_panels(scene, place, item)):
        return True
    return item.value > MOST_INPUT_V and not _of_a_string(scene, place, item, kind)


def other_volts(scene: Scene, words: list[str]) -> bool:
    """Does one of them tell that volts are those of a system, a cable, a connector or a battery?"""
    stems = (*scene.small.others_volts, *scene.small.batteries)
    return any(word.startswith(stems) for word in words)


def may_be_of_string(scene: Scene, head: list[str], item: Item) -> bool:
    """Does the head of a column or a line tell of an input, or do the volts at which it works, for more than usual?"""
    inputs = _inputs(scene)
    if any(word.startswith(inputs) for word in head) or not (_CURRENT.isdisjoint(head) and _OF_PV.isdisjoint(head)):
        return True
    return _above_window(scene, item)


def follows_others(scene: Scene, place: int, item: Item) -> bool:
    """Do amperes stand directly behind the volts of a battery: "battery max. 60 V, 25 A"?"""
    before = scene.before(place)
    return before is not None and before.unit == "V" and item.at - before.to <= 1 and _of_battery(scene, before)


def _part_before(scene: Scene, item: Item) -> list[str]:
    """The words before it in its part of a sentence, nearest first; a point behind a word cut short ends none."""
    tokens, cut_short = scene.tokens[item.field], scene.small.line_cut_short
    part: list[str] = []
    for at in range(item.at - 1, max(item.at - 1 - _BEFORE, -1), -1):
        word = tokens[at]
        if word in _PARTS or word in _OPENS or (word == "." and at > 0 and tokens[at - 1] not in cut_short):
            break
        part.append(word)
    return part


def _part_behind(scene: Scene, item: Item) -> list[str]:
    part: list[str] = []
    for word in scene.tokens[item.field][item.to - 1 : item.to + _BEHIND]:
        if word in _PARTS or word in _OPENS or word == ".":
            break
        part.append(word)
    return part


def _inputs(scene: Scene) -> tuple[str, ...]:
    """What words for inputs begin with."""
    return (*scene.small.input_begins, *scene.small.inputs_named)


def _of_battery(scene: Scene, item: Item) -> bool:
    """Does a word for a battery stand before it in its part, not denied, and none for another input nearer?"""
    part, stems = _part_before(scene, item), scene.small.batteries
    inputs = _inputs(scene)
    for at, word in enumerate(part):
        if word.startswith(stems):
            return not scene.stands("without", item.field, item.at - at - 2)
        if word.startswith(inputs):
            return "".join(part[at + 1 : at + 2]).startswith(stems)
    return False


def _beside_panels(scene: Scene, place: int, item: Item) -> bool:
    """Does a bracket open before it, behind panels that are not what an inverter is for: "2 panels (max. 39 V)"?"""
    tokens = scene.tokens[item.field]
    opened = next((at for at in range(item.at - 1, max(item.at - 1 - _IN_BRACKET, -1), -1)
                   if tokens[at] in _OPENS or tokens[at] in {")", "]"}), -1)  # fmt: skip
    if opened < 0 or tokens[opened] not in _OPENS:
        return False
    row = [one for one in scene.back(place, 16) if one.to <= opened]
    for at, one in enumerate(row):
        if one.what in INVERTERS or (one.what == NUMBER and one.unit != "W"):
            return False
        if one.what in PANELS:
            near = opened - one.to <= _TO_BRACKET
            return near and not any(more.what in _FOR and one.at - more.to <= _TO_BRACKET for more in row[at + 1 :])
    return False


def _of_a_string(scene: Scene, place: int, item: Item, kind: str) -> bool:
    """Is it told to be what the input of an inverter for long strings of panels bears?"""
    before, behind = _part_before(scene, item), _part_behind(scene, item)
    if other_volts(scene, before) or other_volts(scene, behind):
        return False
    inputs = _inputs(scene)
    if any(word.startswith(inputs) for word in (*before, *behind)):
        return True
    if not _CURRENT.isdisjoint(before) or not _OF_PV.isdisjoint(before):
        return kind == "inverter" or _is_inverters(scene, place)
    if kind == "inverter" and not (_CURRENT.isdisjoint(behind) or scene.tells(*PANELS)):
        return True
    return _above_window(scene, item)


def _is_inverters(scene: Scene, place: int) -> bool:
    """Are the goods named last before it an inverter?"""
    goods = next((one for one in scene.back(place, 16) if one.what in INVERTERS or one.what in PANELS), None)
    return goods is not None and goods.what in INVERTERS


def _above_window(scene: Scene, item: Item) -> bool:
    """Does a range that no plug-in inverter works in end a little below it: "MPPT 90-560 V, max. 600 V"?"""
    for place in scene.units.get("V", [])[:_MOST_RANGES]:
        high, low = scene.items[place], scene.items[place - 1]
        ranged = low.what == NUMBER and low.value < high.value and 1 <= high.at - low.to <= _TO_HIGH
        if not ranged or high.field != low.field or not MOST_INPUT_V < high.value < item.value:
            continue
        between = scene.tokens[high.field][low.to : high.at]
        if item.value <= _ABOVE_WINDOW * high.value and scene.small.volts_range.issuperset(between):
            return True
    return False
