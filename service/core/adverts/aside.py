"""Are goods named that do not come along: wanted in exchange, to be had besides, or only the reason why they go?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, PANELS, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many", "other_goods",
                    "accessory"))  # fmt: skip
_BROKEN = frozenset(("d:dead", "s:broken"))
_STATES = frozenset(("d:", "s:"))
_NEAR, _BEFORE, _REASON = 6, 3, 4


def in_exchange(scene: Scene, place: int) -> bool:
    """Does the seller want these goods for his own: "or swap for an inverter"?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    last = item.at - _NEAR  # the words before it, as far as other goods
    for one in scene.back(place, 12):
        if one.what in _GOODS and one.to <= item.at:
            last = max(last, one.to)
        if one.what == "selling":
            return False
        if one.what == "swap":
            return not scene.small.against.isdisjoint(tokens[max(last, one.at) : item.at])
    return False


def is_optional(scene: Scene, place: int) -> bool:
    """Is it said in its clause that they are to be had besides: "inverter optional, 80 €", "optional: inverter"?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    to = item.to
    for one in scene.ahead(place, 4):
        if one.clause != item.clause or one.what in _GOODS:
            break
        if one.what == NUMBER or one.at - to <= 1:
            to = one.to
    start = item.at
    for one in scene.back(place, 3):
        if one.clause != item.clause or one.what in _GOODS:
            break
        if one.what == NUMBER and start - one.to <= 1:
            start = one.at
    near = (*tokens[max(start - _BEFORE, 0) : start], *tokens[item.to : to + 2])
    return any(word.startswith(scene.small.optional) for word in near)


def is_reason(scene: Scene, place: int) -> bool:
    """Does an inverter only tell why panels go: "due to a dead inverter", "wegen neuem Wechselrichter"?"""
    item = scene.items[place]
    before = [one for one in scene.back(place, 6) if one.clause == item.clause and item.at - one.to <= _REASON]
    because = next((one for one in before if one.what == "because"), None)
    if _own_and_dead(scene, place, item):
        return True
    if because is None:
        return False
    told = {at for one in before if one.what[:2] in _STATES or one.what == "new" for at in range(one.at, one.to)}
    tokens = scene.tokens[item.field]
    return all(at in told or tokens[at] in scene.small.before_reason for at in range(because.to, item.at))


def _own_and_dead(scene: Scene, place: int, item: Item) -> bool:
    """Is it "my inverter", or one beside panels that are sold, and said to be dead?"""
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    if not any(one.what in _BROKEN and one.clause == item.clause for one in near):
        return False
    own = not scene.small.own.isdisjoint(scene.tokens[item.field][max(item.at - 2, 0) : item.at])
    return (own and any(one.what == "d:dead" and one.clause == item.clause for one in near)) or _sells_panels(
        scene, place
    )


def _sells_panels(scene: Scene, place: int) -> bool:
    """Does the sentence go on with panels that are sold: "the inverter is broken, so I sell the panels"?"""
    clause, selling = scene.items[place].clause, False
    for one in scene.ahead(place, 8):
        selling = selling or (one.what == "selling" and one.clause != clause)
        if one.what in _GOODS:
            return selling and one.what in PANELS
    return False


def is_supposed(scene: Scene, place: int) -> bool:
    """Is it only said what could be done with such goods?"""
    item = scene.items[place]
    return "maybe" in scene.by_what and any(
        one.what == "maybe" and one.clause == item.clause for one in scene.back(place, 8)
    )
