"""Is an inverter off the grid told of, or only that panels are for a camper or a hut?"""

from service.core.adverts.asked_roles import ISLAND
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS

_OFF_GRID, _TOLD, _SOCKET = "q:off_grid", "off_grid_told", "car_socket"
_SENTENCE_ENDS = frozenset(".!?\n")
_CLAUSE_ENDS = frozenset(".,;:!?()\n|•")
_OTHERS = frozenset(("selling", "accessory", "other_goods", "other_one", "also_sold", "thing"))
_BATTERIES_V = frozenset((12.0, 24.0, 48.0))
_MAINS_V = frozenset((220.0, 230.0, 240.0))
_SENTENCE, _TO_FIRST = 12, 5  # pieces


def off_grid_of_the_goods(scene: Scene, kind: str) -> None:
    """Only goods of that kind are told to be off the grid, by words or by a battery's volts, not where panels stood."""
    _add_told(scene, kind)
    _leave_out_places(scene, kind)
    _add_by_battery(scene, kind)


def _leave_out_places(scene: Scene, kind: str) -> None:
    """Where panels or other goods are sold and no inverter is named, what they are for raises no doubt of one."""
    places = scene.by_what.get(_OFF_GRID)
    if not places or kind not in {"panel", "other"} or scene.tells(*INVERTERS):
        return
    if not any(word.startswith(scene.small.inverting) for field in (0, 1) for word in scene.different(field)):
        del scene.by_what[_OFF_GRID]


def _add_told(scene: Scene, kind: str) -> None:
    """Goods that "work without the grid", or are plugged into a car's socket, are off it; not where a "no" stands near.

    Of what is plugged into a car nothing is asked for but an inverter, which has a word like "into", "for" before it.
    """
    if not scene.tells(_TOLD, _SOCKET):
        return
    found = [at for at in scene.by_what.get(_TOLD, ()) if not _unsure(scene, at)]
    if kind == "inverter":
        found += [at for at in scene.by_what.get(_SOCKET, ()) if _goes_into(scene, at) and not _unsure(scene, at)]
    if found:
        scene.by_what.setdefault(_OFF_GRID, []).extend(found)


def _goes_into(scene: Scene, place: int) -> bool:
    """Is that all that its sentence tells: "plugs into the cigarette lighter", not "I also sell a charger for it"?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    if tokens[item.to : item.to + 1] and tokens[item.to] not in _CLAUSE_ENDS:
        return False
    low = item.at
    while low and item.at - low <= _TO_FIRST and tokens[low - 1] not in _CLAUSE_ENDS:
        low -= 1
    before = tokens[low : item.at]
    if len(before) > _TO_FIRST or scene.small.to_car_socket.isdisjoint(before):
        return False
    return not any(one.what in _OTHERS for one in (*scene.back(place), *scene.ahead(place)))


def _unsure(scene: Scene, place: int) -> bool:
    """Does a "no" or an "if" stand in its sentence, or is it a question?"""
    item = scene.items[place]
    near = (*scene.back(place), *scene.ahead(place))
    if any(one.what == "if" or (one.what == "without" and not item.at <= one.at < item.to) for one in near):
        return True
    tokens = scene.tokens[item.field]
    if not scene.small.nothing.isdisjoint(tokens[max(item.at - _TO_FIRST, 0) : item.at]):
        return True
    end = next((word for word in tokens[item.to : item.to + _SENTENCE] if word in _SENTENCE_ENDS), "")
    return end == "?"


def _add_by_battery(scene: Scene, kind: str) -> None:
    """An inverter that makes mains voltage of a battery's, or an island from one, is off the grid.

    As in "makes 230 V from a 12 V battery", "battery voltage 48 V, 3000 W island".
    """
    if kind != "inverter" or _OFF_GRID in scene.by_what:
        return
    volts = [at for at in scene.units.get("V", []) if scene.items[at].value in _BATTERIES_V]
    if not volts:
        return
    small, body = scene.small, scene.different(1)
    made = next((at for at in volts if _makes_mains(scene, at)), None)
    if made is not None:
        scene.by_what[_OFF_GRID] = [made]
    elif (
        scene.roles & ISLAND
        and not small.island.isdisjoint(body)
        and any(word.startswith(small.battery_word) for word in body)
    ):
        scene.by_what[_OFF_GRID] = volts[:1]


def _makes_mains(scene: Scene, place: int) -> bool:
    """Does mains voltage stand in the clause of a battery's voltage, and a battery in the sentence?"""
    item = scene.items[place]
    near = [one for one in (*scene.back(place, 8), *scene.ahead(place, 8)) if one.field == item.field]
    if not any(one.unit == "V" and one.value in _MAINS_V and one.clause == item.clause for one in near):
        return False
    if any(one.what == "without" and one.clause == item.clause for one in near):
        return False
    words = scene.tokens[item.field][max(item.at - _SENTENCE, 0) : item.to + _SENTENCE]
    return any(stem in word for word in words for stem in scene.small.battery_word)
