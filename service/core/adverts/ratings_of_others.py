"""Are ratings told of goods that are not sold: of the panels that hung on an inverter, of the inverter for a panel?

As in "my panels were 37 V, 9.2 A and it ran them", "works with an inverter of Isc max. 18 A".
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS, Item

_INPUTS = frozenset(("inputs", "tracking", "input_range", "start", "max_in", "ac_out", "dc_power"))
_OF_INPUTS = frozenset(("inputs", "tracking", "input_range", "max_in", "input_current"))
_FOR = frozenset(("for", "takes", "max_in"))
_PARTS = frozenset((",", ";", "|", "\n"))
_UNITS = frozenset(("V", "A"))
_BACK, _FAR, _TO_FIRST, _BEFORE, _TO_OWN = 14, 20, 8, 5, 3
_NEAR, _TO_BEARING = 8, 12
_ENDS = frozenset((".", "!", "?", ";", "\n"))


def at_most(scene: Scene, place: int, item: Item) -> bool:
    """Does "max" stand close before it, in its clause?"""
    return any(one.what == "max_in" and one.clause == item.clause and item.at - one.to <= _NEAR
               for one in scene.back(place, 6))  # fmt: skip


def of_sellers_panels(scene: Scene, place: int, item: Item) -> bool:
    """Are the volts or amperes in an inverter's advert those of panels that the seller had or keeps?"""
    back = scene.back(place, _BACK)
    for one in back:
        if item.at - one.to > _FAR or one.what in INVERTERS:
            return False
        if one.what in PANELS:
            return _are_had(scene, place, item, one)
        if one.what in _INPUTS and not _of_mine_before(scene, back, one):
            return False
    return False


def _of_mine_before(scene: Scene, back: list[Item], one: Item) -> bool:
    """As in "my panels had max. 41 V": what is greatest there is of the panels all the same."""
    if one.what != "max_in":
        return False
    panels = next((item for item in back if item.what in PANELS and item.to <= one.at), None)
    return panels is not None and panels.clause == one.clause and _is_mine(scene, panels)


def _is_mine(scene: Scene, one: Item) -> bool:
    tokens = scene.tokens[one.field]
    return not scene.small.of_mine.isdisjoint(tokens[max(one.at - _TO_OWN, 0) : one.at])


def _are_had(scene: Scene, place: int, item: Item, panels: Item) -> bool:
    """Does a figure tell of the panels before it, and does nothing say that it is what an inverter takes?"""
    if _is_mine(scene, panels):
        return True
    tokens, small = scene.tokens[item.field], scene.small
    before = tokens[max(panels.at - 2, 0) : panels.at]
    if at_most(scene, place, item) or not small.for_each.isdisjoint(before) or not small.per.isdisjoint(before):
        return False
    taken = False
    row: list[Item] = []  # figures behind the panels, nearest to the panels last
    for one in scene.back(place, _BACK):
        taken = taken or (one.at < panels.at and panels.at - one.to <= _BEFORE and one.what in _FOR)
        if one.at >= panels.to and (one.unit in _UNITS or one.what == "voc"):
            row.append(one)
    first = row[-1] if row else item
    if any(one.what == "voc" for one in row):  # a greatest voltage would be called so
        volts = next((one for one in reversed(row) if one.unit == "V"), None)
        return volts is None or tokens[volts.at - 1] not in small.volts_up_to
    between = tokens[panels.to : first.at]
    second = row[-2] if len(row) > 1 else item
    ranged = second.unit == first.unit == "V" and second.at - first.to <= 1
    return not taken and len(between) <= _TO_FIRST and _PARTS.isdisjoint(between) and not ranged


def _is_borne(scene: Scene, near: list[Item], item: Item) -> bool:
    """Is it what an inverter named before it, or "mine", is said to take: "mine accepts 60 V open circuit"?"""
    if scene.small.bears.isdisjoint(scene.tokens[item.field][max(item.at - _TO_BEARING, 0) : item.at]):
        return False
    low = max((one.at for one in near if one.what in PANELS), default=0)
    before = scene.tokens[item.field][max(item.at - _TO_BEARING, low) : item.at]
    ends = [at for at, word in enumerate(before) if word in _ENDS]
    before = before[ends[-1] + 1 :] if ends else before
    at = next((at for at, word in enumerate(before) if word in scene.small.bears), None)
    if at is None:
        return False
    return not scene.small.mine.isdisjoint(before[:at]) or any(
        one.what in INVERTERS and one.at > low and one.to <= item.at for one in near
    )


def of_inverters_input(scene: Scene) -> set[int]:
    """Places of the figures in a panel's advert that an inverter's input bears."""
    found: set[int] = set()
    for unit in scene.units.keys() & _UNITS:
        for place in scene.units[unit]:
            if _of_input(scene, place, scene.items[place]):
                found.add(place)
    return found


def _of_input(scene: Scene, place: int, item: Item) -> bool:
    near = scene.back(place, 10)
    if _is_borne(scene, near, item):
        return True
    for at, one in enumerate(near):
        if one.what in PANELS or item.at - one.to > _FAR:
            return False
        if one.what in INVERTERS:
            limits = any(more.what in _OF_INPUTS and more.clause == item.clause for more in near[:at])
            up_to = one.clause == item.clause and scene.tokens[item.field][item.at - 1] in scene.small.volts_up_to
            behind = (more for more in scene.ahead(place, 2) if more.at - item.to <= 1)
            return limits or up_to or any(more.what in _OF_INPUTS and more.clause == item.clause for more in behind)
    return False
