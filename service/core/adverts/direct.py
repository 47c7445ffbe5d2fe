"""Is a greatest voltage what an input bears, or what the grid may have: "grid: Umax 253 V"?"""

from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

GRID_V = (180.0, 280.0)
_LEAST_V, _MOST_LONE_V = 100.0, 150.0  # grids have no less; inputs of plug-in inverters bear no more
_LETTERS = frozenset(("u", "v", "umax", "vmax"))
_NOMINAL_V = frozenset((230.0, 240.0, 380.0, 400.0, 415.0))
_LONE = _LETTERS | {"max"}
_OF_GRIDS = frozenset(("ac_out", "system"))
_NAMES = frozenset(("vmp", "max_in"))
_DIRECT = frozenset(("cc", "vcc", "ucc", "pv", "upv", "uin", "vin"))
_PARTS = frozenset((",", ";", "/", "|", ".", "\n"))
_BEFORE = 4  # pieces


def of_the_grid(scene: Scene, place: int, item: Item) -> bool:
    """Is it what a grid may have, or does nobody tell that it is not?

    Volts such as grids have are an input's only where a word for direct current or an input stands beside; so are those
    that no input of a plug-in inverter bears, behind a bare "Umax".
    """
    behind = scene.behind(place)
    if behind is not None and behind.what == "ac_out" and behind.at - item.to <= 1 and behind.clause == item.clause:
        return not _heads_others(scene, behind)
    if item.value < _LEAST_V:
        return False
    name = next((one for one in scene.back(place, 3) if one.what in _NAMES and item.at - one.to <= _BEFORE), None)
    tokens = scene.tokens[item.field]
    start = item.at if name is None else name.at
    if _direct(scene, tokens[start : item.to], tokens[item.to : item.to + 2], tokens[max(start - _BEFORE, 0) : start]):
        return False
    if GRID_V[0] <= item.value <= GRID_V[1]:
        return True
    for one in scene.back(place, 4):  # "grid max. 460 V", "400 V, max. 460 V"
        if (one.what in _OF_GRIDS and one.clause == item.clause) or (one.unit == "V" and one.value in _NOMINAL_V):
            return True
    told = [] if name is None else tokens[name.at : name.to]
    lone = _LONE.issuperset(told) and not _LETTERS.isdisjoint(told)
    return lone and (item.value > _MOST_LONE_V or any(scene.in_sentence(item.sentence, what) for what in _OF_GRIDS))


def _heads_others(scene: Scene, name: Item) -> bool:
    """Does the word for what comes out begin figures of its own: "Umax 60 V AC: 230 V"?"""
    return scene.tokens[name.field][name.to : name.to + 1] == [":"]


def _direct(scene: Scene, name: list[str], behind: list[str], before: list[str]) -> bool:
    """Does a word for direct current or an input stand in a name or a figure, or beside them in their part?"""
    near = [*name, *takewhile(lambda word: word not in _PARTS, behind)]
    near += takewhile(lambda word: word not in _PARTS, reversed(before))
    inputs = scene.small.input_begins
    return any(word in _DIRECT or "dc" in word or word.startswith(inputs) for word in near)
