"""Are goods of one kind sold alone ("selling just the inverter"), or out of a set ("inverter of a balcony set")?"""

from collections.abc import Mapping

from service.core.adverts.asked_roles import NOTHING_ELSE, THROWN_IN
from service.core.adverts.inverter_alone import is_alone
from service.core.adverts.scene import Scene
from service.core.adverts.set_figures import counted_in_set, stroked
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS

_OF = {**dict.fromkeys(PANELS, "panel"), **dict.fromkeys(INVERTERS, "inverter")}
_OF_KITS = frozenset(("plus", "set_weak", "set_one", "set_many", "power"))
_LEAST_W, _MOST_PANELS, _WATTS_COUNT_PANELS = 600.0, 12, 3
_ENDS = frozenset(".,;:!?()\n|+&")
_TO_VERB, _TO_GOODS, _BEHIND = 4, 3, 6


def only_sold(scene: Scene) -> str | None:
    """The one kind of goods that is said to be sold alone; None where no words tell it."""
    small = scene.small
    if "selling" not in scene.by_what or not scene.roles & NOTHING_ELSE:
        return None
    for place in sorted(at for what in scene.by_what.keys() & _OF.keys() for at in scene.by_what[what]):
        item = scene.items[place]
        tokens = scene.tokens[item.field]
        low = max(item.at - _TO_GOODS, 0)
        at = next((at for at in range(item.at - 1, low - 1, -1) if tokens[at] in small.nothing_else), None)
        if at is None or not small.order_not.isdisjoint(tokens[max(at - 1, 0) : at]):  # "not just the inverter"
            continue
        sold = any(one.what == "selling" and one.clause == item.clause and abs(at - one.to) <= _TO_VERB
                   for one in (*scene.back(place, 4), *scene.ahead(place, 3)))  # fmt: skip
        if sold and not _joined(scene, place):
            return _OF[item.what]
    return None


def _joined(scene: Scene, place: int) -> bool:
    """Are other goods joined to them behind: "only the inverter with both panels"?"""
    item, joined = scene.items[place], False
    for one in scene.ahead(place, _BEHIND):
        if one.clause != item.clause:
            return False
        joined = joined or one.what == "plus"
        if joined and one.what in _OF and _OF[one.what] != _OF[item.what]:
            return True
    return False


def come_along(scene: Scene, panels: list[int]) -> bool:
    """Is it said behind counted panels that they come along: "inverter 600 W. 2 x 430 W panels come with it"?"""
    if not scene.roles & THROWN_IN:
        return False
    for place in panels:
        item, tokens = scene.items[place], scene.tokens[scene.items[place].field]
        behind = tokens[item.to : item.to + _TO_VERB]
        at = next((at for at, word in enumerate(behind) if word in scene.small.thrown_in), None)
        if at is None or not _ENDS.isdisjoint(behind[:at]) or scene.denied(place):
            continue
        if any(one.what == NUMBER and not one.unit and one.clause == item.clause and item.at - one.to <= _TO_VERB
               for one in scene.back(place, 4)):  # fmt: skip
            return True
    return False


def is_of_set(scene: Scene, title: Mapping[str, list[int]], all_: Mapping[str, list[int]]) -> bool:
    """Does an inverter stand first in a title, a set behind it only tell of what it is, and nobody name panels?

    Or is it told to be alone, with its panels gone?
    """
    if "panel" in all_ and is_alone(scene, title, all_["panel"]):
        return True
    if "panel" in all_ or "inverter" not in title or "set" not in title or title["inverter"][0] > title["set"][0]:
        return False
    inverter, first = scene.items[title["inverter"][-1]], scene.items[title["set"][0]]
    between = scene.tokens[0][inverter.to : first.at]
    if inverter.at > first.at or not scene.small.parting_sets.isdisjoint(between):
        return False
    peaks = any(scene.items[at].peak for at in scene.units.get("W", []))
    return not (peaks or stroked(scene) or counted_in_set(scene))


def is_kit_with_panels(scene: Scene, places: list[int]) -> bool:
    """Do the watts of an inverter stand behind a kit, and several panels behind them: "kit 800 W with 2 panels"?"""
    for place in places:
        item, ahead = scene.items[place], [one for one in scene.ahead(place, 6) if one.what not in _OF_KITS]
        if len(ahead) < _WATTS_COUNT_PANELS:
            continue
        watts, count, panels = ahead[:_WATTS_COUNT_PANELS]
        of_kit = watts.unit == "W" and not watts.peak and watts.value >= _LEAST_W and watts.at - item.to <= 1
        several = count.what == NUMBER and not count.unit and 1 < count.value <= _MOST_PANELS
        counted = panels.what in PANELS and panels.at == count.to and panels.clause == item.clause
        if of_kit and several and counted:
            return True
    return False


def leave_out_panels(scene: Scene) -> None:
    """Of the title of a kit of which the inverter is left go the counted watts of its panels: "kit 2x410 W + 600 W"."""
    gone: set[int] = set()
    for place in scene.units.get("W", []):
        item = scene.items[place]
        count = scene.items[place - 1] if place else item
        behind = scene.behind(place)
        of_inverter = behind is not None and behind.what in INVERTERS and behind.at == item.to
        times = count.what == NUMBER and not count.unit and scene.tokens[item.field][count.to : item.at] == ["x"]
        if item.field == 0 and count.field == 0 and times and not of_inverter:
            gone |= {place - 1, place}
    if not gone:
        return
    for places in (scene.by_what[NUMBER], scene.units["W"], scene.units.get("", [])):
        places[:] = [place for place in places if place not in gone]
