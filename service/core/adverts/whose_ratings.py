"""Whose volts or amperes are they: of an inverter's input, of a panel, of what comes out, or of a plug or a fuse?"""

from service.core.adverts.carriers import carried_by_others
from service.core.adverts.direct import GRID_V
from service.core.adverts.figures import name_of
from service.core.adverts.ratings_of_others import at_most
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_NAMES = frozenset(("isc", "imp", "input_current", "output_current"))
_OF_PANELS = frozenset(("voc", "isc", "vmp", "imp"))
_PLUGS = frozenset(("wiring", "q:unsafe", "d:missing_connector", "d:missing_lead"))  # "13 A plug on each lead"
_LIMITED = {"A": frozenset(("isc", "input_current")), "V": frozenset(("voc",))}
_OF_INPUTS = frozenset(("inputs", "tracking", "input_current"))
_CURRENTS = frozenset((*_NAMES, "max_sc", "inputs"))
_GOODS = {"inverter_one": "inverter", "inverter_many": "inverter", "panel_one": "panel", "panel_many": "panel"}
_USUAL_GRIDS_V = (230.0, 240.0)
_LIKE_SHARE = 0.01
_MOST_OUT_A = 9.0  # above it inputs have such currents too
_FAR, _NEAR, _BEHIND = 24, 4, 6


def of_something_else(scene: Scene, place: int, item: Item) -> bool:
    """Is a current of an inverter what comes out, or what a plug, a fuse or a connector carries?"""
    if scene.tells(*_PLUGS) and _of_wiring(scene, place, item):
        return True
    if carried_by_others(scene, place, item):
        return True
    if "output_current" in scene.by_what and name_of(scene, place, _NAMES) == "output_current":
        return not _named_behind(scene, place, item)
    return _at_the_grid(scene, place, item) or _as_power_tells(scene, place, item)


def _of_wiring(scene: Scene, place: int, item: Item) -> bool:
    """As in "13 A plug", "fuse 16 A"."""
    for one in scene.ahead(place, 3):
        if one.clause != item.clause or one.at - item.to > 1:
            break
        if one.what in _PLUGS:
            return True
    enclosed = scene.tokens[item.field][item.at - 1] == "("  # "connectors (30 A)"
    for one in scene.back(place, 6):
        if one.clause != item.clause and not enclosed:
            break
        if item.at - one.to > _NEAR or one.unit == "A" or one.what in _CURRENTS:
            break
        if one.what in _PLUGS:
            return True
    return False


def _named_behind(scene: Scene, place: int, item: Item) -> bool:
    """Does the name of an input's current stand behind it: "3.48 A output current, 14 A input current"?"""
    return any(one.what in _OF_INPUTS and one.at - item.to <= 1 and one.clause == item.clause
               for one in scene.ahead(place, 2))  # fmt: skip


def _at_the_grid(scene: Scene, place: int, item: Item) -> bool:
    """Do the volts of the grid stand directly beside it: "230 V / 3.5 A", "2.6 A at 230 V"?"""
    before, behind = scene.before(place), scene.behind(place)
    if before is not None and before.unit == "V" and item.at - before.to <= 1:
        return GRID_V[0] <= before.value <= GRID_V[1]
    if behind is None or behind.unit != "V" or not GRID_V[0] <= behind.value <= GRID_V[1]:
        return False
    between = scene.tokens[item.field][item.to : behind.at]
    return len(between) <= 1 and between != [","]


def _as_power_tells(scene: Scene, place: int, item: Item) -> bool:
    """Is it what the power of the inverter draws from the volts of the grid: 800 W and 3.48 A?"""
    if item.value > _MOST_OUT_A or not item.value % 1 or _is_input(scene, place, item):
        return False
    powers = {scene.items[at].value for at in scene.units.get("W", [])}
    return any(abs(item.value * volts - power) <= _LIKE_SHARE * power for power in powers for volts in _USUAL_GRIDS_V)


def _is_input(scene: Scene, place: int, item: Item) -> bool:
    """Is it said to be the current of an input, or of a short circuit?"""
    near = [one for one in scene.ahead(place, 3) if one.at - item.to <= _NEAR and one.clause == item.clause]
    near += [one for one in scene.back(place, 4) if item.at - one.to <= _NEAR and one.clause == item.clause]
    return any(one.what in {"inputs", "isc", "max_sc"} or (one.what == "input_current" and one.to - one.at > 1)
               for one in near)  # fmt: skip


def limits_in_set(scene: Scene) -> tuple[frozenset[int], frozenset[int]]:
    """Places of the currents and open voltages in a set that are limits of its inverter, and of those that may be."""
    limits: set[int] = set()
    unsure: set[int] = set()
    measured = (*scene.units.get("A", []), *(scene.units.get("V", []) if "voc" in scene.by_what else ()))
    for place in measured if scene.tells(*_GOODS) and scene.tells("voc", *_CURRENTS) else []:
        of_inverter = _of_inverter(scene, place, scene.items[place])
        if of_inverter:
            limits.add(place)
        elif of_inverter is None:
            unsure.add(place)
    return frozenset(limits), frozenset(unsure)


def _of_inverter(scene: Scene, place: int, item: Item) -> bool | None:
    """Is a figure of a set told of an input; None where it is not said whose it is."""
    if item.unit == "A" and _each_input(scene, place, item):
        return True
    name = name_of(scene, place, _LIMITED[item.unit])
    goods = _goods_before(scene, place) if name else None
    if goods is None or _GOODS[goods.what] == "panel":
        return False
    if at_most(scene, place, item) or (name == "input_current" and _is_input(scene, place, item)):
        return True
    if name == "input_current" or goods.sentence != item.sentence:
        return False
    # a row of ratings is the panels', whatever stands before it
    others = _OF_PANELS - {name}
    return False if any(scene.in_sentence(item.sentence, what) for what in others) else None


def _each_input(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for inputs stand directly behind it, that heads no figure of its own: "18 A per input"?"""
    ahead = scene.ahead(place, 6)
    for at, one in enumerate(ahead):
        if one.clause != item.clause or one.at - item.to > _BEHIND or one.what == NUMBER:
            return False
        if one.what in _OF_INPUTS:
            return not any(more.what == NUMBER and more.at - one.to <= 1 for more in ahead[at + 1 : at + 3])
    return False


def _goods_before(scene: Scene, place: int) -> Item | None:
    """The panels or the inverter named last before it, whatever the sentence."""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    for at in range(place - 1, max(place - _FAR, -1), -1):
        one = scene.items[at]
        if one.field != item.field or one.peak or (one.unit == "W" and tokens[max(one.at - 1, 0)] == "x"):
            return None  # other goods, or panels told by their watts alone
        if one.what in _GOODS:
            return one
    return None
