"""Are so many watts told that they are no single panel's: those of all panels ("10 panels, 4000 Wp"), or a mistake?"""

from service.core.adverts.figures import Found
from service.core.adverts.goods import Goods
from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

GREATEST_W = 750.0  # of one panel that is sold to homes
_STEP_W = 5.0  # panels are sold in such steps
_LEAST_W = 40.0
_NO_PANELS = frozenset(("origin", "for", "takes", "dc_power", "battery", "system", "served", "without", "other_goods",
                        "accessory", "thing"))  # fmt: skip
_OTHER_POWERS = ("inverter_one", "inverter_many", "set_one", "set_many", "set_weak", "ac_out", "limited", "surge",
                 "tracking", "inputs", "input_range")  # fmt: skip
_BEFORE, _BEHIND = 4, 2  # pieces


def power_of_one(scene: Scene, goods: Goods, panel: Found) -> bool:
    """Takes out of ``panel`` a power that no single one has; is there one to ask about?

    It is not shared by the panels, who may be unlike: the label of one tells. The power of a plant from which they
    come, or of a lot in rounded kilowatts, is no mistake. Where other powers are told, too, nobody knows whose this one
    is.
    """
    if goods.kind != "panel" or not any(scene.items[at].value > GREATEST_W for at in scene.units.get("W", [])):
        return False
    told = panel.get("power")
    sure = (told is not None and told[0] <= GREATEST_W) or scene.tells(*_OTHER_POWERS)
    place = None if sure else _only_one(scene)
    if place is None:
        return False
    item, pieces = scene.items[place], goods.quantity
    panel.pop("power", None)
    if pieces is None or pieces == 1 or _is_each(scene, place):
        return pieces is not None or item.factor == 1.0
    one, exact = round(item.value / pieces, 4), _rounding_w(scene, item) / pieces < _STEP_W / 2
    return exact or not _LEAST_W <= one <= GREATEST_W


def _rounding_w(scene: Scene, item: Item) -> float:
    """By how much a total may be rounded, as its last digit tells: 50 W for "2.4 kW"."""
    decimals = len(scene.tokens[item.field][item.at].replace(",", ".").partition(".")[2])
    return float(item.factor / 2 / 10**decimals)


def _only_one(scene: Scene) -> int | None:
    """The place of the watts of what is sold, where no others are told but those of a plant or the light."""
    watts = scene.units["W"]
    places = [at for at in watts if _of_panels(scene, at)]
    alike = len({scene.items[at].value for at in places}) == 1 and scene.items[places[0]].value > GREATEST_W
    return places[0] if alike else None


def _is_each(scene: Scene, place: int) -> bool:
    """Is it said to be the power of each: "mit je 800 W", "800 W each"?"""
    item = scene.items[place]
    near = [one for one in scene.back(place, 2) if item.at - one.to <= 1]
    near += [one for one in scene.ahead(place, 1) if one.at - item.to <= 1]
    return any(one.what == "each" and one.clause == item.clause for one in near)


def _of_panels(scene: Scene, place: int) -> bool:
    """May they be watts of what is sold, not of a plant, a heater or the light?"""
    item = scene.items[place]
    if _is_light_or_ac(scene, item):
        return False
    before = [one.what for one in scene.back(place, 6) if one.clause == item.clause and item.at - one.to <= _BEFORE]
    behind = [one.what for one in scene.ahead(place, 3) if one.at - item.to <= _BEHIND]
    return _NO_PANELS.isdisjoint(before) and _NO_PANELS.isdisjoint(behind)


def _is_light_or_ac(scene: Scene, item: Item) -> bool:
    if scene.tokens[item.field][item.to - 1] == "ac":
        return True
    return not scene.small.square_metres.isdisjoint(scene.tokens[item.field][item.to : item.to + 2])
