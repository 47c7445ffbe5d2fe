"""Do figures alone tell a set: "kit 820 Wp / 800 W", "4x 410 Wp, 1x 1600 W inverter"?"""

from collections.abc import Iterator
from itertools import pairwise

from service.core.adverts.scene import Scene
from service.core.adverts.small_words import AND
from service.core.adverts.walk import Item

_INVERTERS = ("inverter_one", "inverter_many")
_PANEL_W = (200.0, 720.0)
_ROUND_W = 50.0  # inverters have round powers, so that other ones are those of panels
_JOINING = AND | {"mit", "with", "met", "avec", "con", "com", "z", "s", "med", "&", ","}
_PLUS = _JOINING - {","}
_OF_INPUTS = frozenset(("for", "takes", "inputs", "max_in", "dc_power", "input_range"))
_NEAR, _MOST_PANELS = 4, 12


def stroked(scene: Scene) -> bool:
    """Do watts of panels and lesser ones of an inverter stand with a stroke between?"""
    for first, second in _pairs(scene):
        one, two = scene.items[first], scene.items[second]
        greater = one.peak and not two.peak and one.value > two.value
        if greater and scene.tokens[one.field][one.to : two.at] == ["/"]:
            return True
    return False


def counted(scene: Scene) -> bool:
    """Do watts that only panels have stand behind a count and x, and a counted inverter's watts behind them?"""
    for first, second in _pairs(scene):
        one, two = scene.items[first], scene.items[second]
        of_panels = one.peak or (_PANEL_W[0] <= one.value <= _PANEL_W[1] and one.value % _ROUND_W)
        if not of_panels or two.peak or not (_times(scene, one) and _times(scene, two)):
            continue
        if _of_inverter(scene, second) and not _of_inverter(scene, first):
            return True
    return False


def counted_in_set(scene: Scene) -> bool:
    """The same where a set is named: do counted watts stand before the watts of an inverter: "set 2x430 W + 800 W"?"""
    for first, second in _pairs(scene):
        one, two = scene.items[first], scene.items[second]
        of_panels = one.peak or _PANEL_W[0] <= one.value <= _PANEL_W[1]
        if of_panels and not two.peak and _times(scene, one) and not _of_inverter(scene, first):
            between = scene.tokens[one.field][one.to : two.at]
            named = _of_inverter(scene, second) or not set(_INVERTERS).isdisjoint(scene.whats[first:second])
            if not _JOINING.isdisjoint(between) and named:
                return True
    return False


def added(scene: Scene) -> bool:
    """Do counted watts of panels and an inverter's stand with a plus between: "2x410 W + micro inverter 800 W"?"""
    for first, second in _pairs(scene):
        one, two = scene.items[first], scene.items[second]
        if scene.tokens[one.field][one.to : one.to + 1] and scene.tokens[one.field][one.to] in _PLUS:
            panels, inverter = (second, first) if _of_inverter(scene, first) else (first, second)
            if _is_counted(scene, panels) and _of_inverter(scene, inverter) and not scene.items[inverter].peak:
                return True
    return False


def _is_counted(scene: Scene, place: int) -> bool:
    """Are they watts of panels directly behind a number and x, of which nobody says that an inverter takes them?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    if not _PANEL_W[0] <= item.value <= _PANEL_W[1] or item.at < 2 or tokens[item.at - 1] != "x":
        return False
    count = tokens[item.at - 2]
    if not count.isdecimal() or not 1 <= int(count) <= _MOST_PANELS or _of_inverter(scene, place):
        return False
    return not any(one.what in _OF_INPUTS and one.clause == item.clause for one in scene.back(place, _NEAR))


def _pairs(scene: Scene) -> Iterator[tuple[int, int]]:
    """Places of watts that follow one another in a sentence."""
    for first, second in pairwise(scene.units.get("W", ())):
        if scene.items[first].sentence == scene.items[second].sentence:
            yield first, second


def _times(scene: Scene, item: Item) -> bool:
    """Does "4x" stand before it, or before the name between?"""
    tokens = scene.tokens[item.field]
    at = next((at for at in range(item.at - 1, max(item.at - _NEAR, 1) - 1, -1) if tokens[at] == "x"), 0)
    return at > 0 and tokens[at - 1].isdigit()


def _of_inverter(scene: Scene, place: int) -> bool:
    """Does the name of an inverter stand directly beside it?"""
    item = scene.items[place]
    if any(scene.stands(what, item.field, item.to) for what in _INVERTERS):
        return True
    return any(one.what in _INVERTERS and one.to == item.at for one in scene.back(place, 2))
