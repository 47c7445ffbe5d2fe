"""Do figures alone tell a set: "kit 820 Wp / 800 W", "4x 410 Wp, 1x 1600 W inverter"?"""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, Item

_PANEL_W = (200.0, 720.0)
_ROUND_W = 50.0  # inverters have round powers, so that other ones are those of panels
_OF_INPUTS = frozenset(("for", "takes", "inputs", "max_in", "dc_power", "input_range"))
_NEAR, _CLOSE, _MOST_PANELS = 4, 3, 12


def figures_tell_set(scene: Scene) -> bool:
    """Do they where an inverter is named and no panel?"""
    return _counted(scene) or _added(scene) or ("set_weak" in scene.by_what and counted_in_set(scene))


def stroked(scene: Scene) -> bool:
    """Do watts of panels and lesser ones of an inverter stand with a stroke between?"""
    for first, second in _pairs(scene):
        one, two = scene.items[first], scene.items[second]
        greater = one.peak and not two.peak and one.value > two.value
        if greater and scene.tokens[one.field][one.to : two.at] == ["/"]:
            return True
    return False


def _counted(scene: Scene) -> bool:
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
            named = _of_inverter(scene, second) or not INVERTERS.isdisjoint(scene.whats[first:second])
            if not scene.small.set_joining.isdisjoint(between) and named:
                return True
    return False


def _added(scene: Scene) -> bool:
    """Do counted watts of panels and an inverter's stand with a plus between: "2x410 W + micro inverter 800 W"?"""
    for first, second in _pairs(scene):
        one = scene.items[first]
        between = scene.tokens[one.field][one.to : one.to + 1]
        if between != [","] and not scene.small.set_joining.isdisjoint(between):
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
    before = [one for one in scene.back(place, _NEAR) if one.clause == item.clause]
    return not any(item.at - one.to <= (2 if one.what == "for" else _NEAR) for one in before if one.what in _OF_INPUTS)


def _pairs(scene: Scene) -> Iterator[tuple[int, int]]:
    """Places of watts that follow one another in a sentence."""
    for first, second in pairwise(scene.units.get("W", [])):
        if scene.items[first].sentence == scene.items[second].sentence:
            yield first, second


def listed(scene: Scene, panels: Iterable[int], inverters: Iterable[int]) -> bool:
    """Do a number of panels and an inverter stand in one sentence; not "three inverters, each for a single panel"?"""
    most = {scene.items[at].sentence: count for at in panels if (count := _count_before(scene, at)) is not None}
    if not most:
        return False
    return any(
        most[sentence] > 1 or not _are_several(scene, at)
        for at in inverters
        if (sentence := scene.items[at].sentence) in most
    )


def _are_several(scene: Scene, place: int) -> bool:
    """Does a small number stand before goods, perhaps before their name: "three Corbel C-350 inverters"?"""
    item = scene.items[place]
    return any(one.what == NUMBER and not one.unit and 1 < one.value <= _MOST_PANELS and one.clause == item.clause
               for one in scene.back(place, 4) if item.at - one.to <= 2 * _CLOSE)  # fmt: skip


def _count_before(scene: Scene, place: int) -> float | None:
    """The number that stands close before goods."""
    at = scene.items[place].at
    counts = [one for one in scene.back(place, 2) if one.what == NUMBER and not one.unit and at - one.to <= _CLOSE]
    return counts[0].value if counts else None


def _times(scene: Scene, item: Item) -> bool:
    """Does "4x" stand before it, or before the name between?"""
    tokens = scene.tokens[item.field]
    at = next((at for at in range(item.at - 1, max(item.at - _NEAR, 1) - 1, -1) if tokens[at] == "x"), 0)
    return at > 0 and tokens[at - 1].isdigit()


def _of_inverter(scene: Scene, place: int) -> bool:
    """Does the name of an inverter stand directly beside it?"""
    item = scene.items[place]
    if any(scene.stands(what, item.field, item.to) for what in INVERTERS):
        return True
    return any(one.what in INVERTERS and one.to == item.at for one in scene.back(place, 2))
