"""How many pieces must be taken together, as far as the text tells?"""

from service.core.adverts.goods import Goods
from service.core.adverts.pieces import of_pallet
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item

_MOST = 1000
_TOLD = {f"least:{number}": number for number in range(2, 13)}  # meanings that hold the number: "in pairs"
_NEAR = 3
_FAR, _WORD = 6, 4  # items; letters
_WITH_PANELS = frozenset(("inverter", "set"))
_NAMES = {"inverter": INVERTERS, "set": frozenset(("set_one", "set_many", "set_weak"))}
_OF_RATINGS = frozenset(("W", "V", "A", "%/K", "V/K", "mm", "kg", "%", "y", "Hz"))
_OF_LIMITS = frozenset(("tracking", "start", "input_range", "max_in", "inputs", "input_current", "voc", "isc"))

Least = tuple[int, Item]


def least_of(scene: Scene, goods: Goods) -> Least | None:
    """The fewest that are sold, and where it stands; None where no number tells it, or where it is one."""
    told: list[Least] = []
    for what, number in _TOLD.items():
        if what in scene.by_what:
            told += [(number, scene.items[place]) for place in scene.said(what)]
    told += [found for place in orders(scene, goods.kind) if (found := _counted(scene, place)) is not None]
    if not told and goods.quantity:
        wholes = scene.by_what.get("whole", [])
        told = [_counted(scene, at) or (_all_of(scene, goods, scene.items[at]), scene.items[at]) for at in wholes]
    if not told and goods.bundles > 1 and goods.quantity:
        told = [(goods.quantity // goods.bundles, scene.items[at]) for at in scene.by_what.get("sets_only", [])]
    told = [one for one in told if 1 < one[0] <= (goods.quantity or _MOST)]
    return max(told, key=lambda one: one[0]) if told else None


def _all_of(scene: Scene, goods: Goods, item: Item) -> int:
    """All pieces, or those of one pallet where only whole pallets are sold."""
    if not of_pallet(scene, item):
        return goods.quantity or 0
    return (goods.quantity or 0) // goods.pallets if goods.pallets > 1 else 0


def orders(scene: Scene, kind: str) -> list[int]:
    """Places where a least number of pieces is spoken of, not the lower end of volts or a least price.

    Nor how many panels an inverter needs, or how many people a set.
    """
    if "minimum" not in scene.by_what:
        return []
    others = kind in _WITH_PANELS
    return [place for place in scene.said("minimum")
            if not (_of_rating(scene, place) or (others and _of_other_things(scene, place, kind)))]  # fmt: skip


def _of_other_things(scene: Scene, place: int, kind: str) -> bool:
    """Are panels counted that an inverter or a set takes, or what has no meaning here: "bring at least two people"?"""
    item = scene.items[place]
    number = next((one for one in scene.ahead(place, 2) if one.what == NUMBER and one.at - item.to <= 1), item)
    tokens, to = scene.tokens[item.field], number.to
    told = {one.what for one in scene.items[place + 1 : place + _FAR] if one.field == item.field and one.at == to}
    if not told:
        return to < len(tokens) and len(tokens[to]) >= _WORD and tokens[to].isalpha()
    names = _NAMES[kind]
    return not PANELS.isdisjoint(told) and names.isdisjoint(told)


def _of_rating(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    ahead = [one for one in scene.ahead(place, 3) if one.at - item.to <= _NEAR]
    figure = next((one for one in ahead if one.what == NUMBER), None)
    alone = item.to - item.at == 1  # "min 40 €" is a least price, "minimum order £100" is not
    if figure is not None and (figure.unit in _OF_RATINGS or (alone and figure.unit in MONEY_UNITS)):
        return True
    before = next((one for one in scene.back(place, 1) if item.at - one.to <= 1 and one.clause == item.clause), None)
    return before is not None and (before.what in _OF_LIMITS or before.unit in _OF_RATINGS - {"W"})


def _counted(scene: Scene, place: int) -> Least | None:
    """The number within the words, behind or before them: "mindst 2", "minimum order 10 pieces", "5 pieces minimum"."""
    item = scene.items[place]
    within = next((word for word in scene.tokens[item.field][item.at : item.to] if word.isdigit()), None)
    if within is not None:
        return int(within), item
    for one in scene.ahead(place, 3):
        if one.at - item.to > _NEAR or one.sentence != item.sentence:
            break
        if one.what == NUMBER:
            return _whole(one)
    for one in scene.back(place, 4):
        if item.at - one.to > _NEAR or one.clause != item.clause:
            break
        if one.what == NUMBER:
            return _whole(one)
    return None


def _whole(one: Item) -> Least | None:
    return (int(one.value), one) if not one.unit and one.value == int(one.value) and 1 < one.value <= _MOST else None
