"""Which short words name goods only beside figures: "micro 800 W", "2 mod. 410 W"?"""

from collections.abc import Mapping, Sequence

from service.core.adverts.walk import NUMBER, Item

_MOST_COUNT = 500
_INVERTER_W, _PANEL_W = (200.0, 2500.0), (200.0, 720.0)
_SMALL_WORD, _FAR = 2, 4


def named_in_full(items: list[Item], by_what: Mapping[str, list[int]], fields: Sequence[list[str]]) -> list[Item]:
    """Items in which such a word is the name of an inverter or of panels, or is left out where no figure tells it."""
    left_out: set[int] = set()
    kinds = (("inverter_maybe", _is_inverter, "inverter_one"), ("panel_maybe", _is_panel, "panel_many"))
    for what, is_so, named in kinds:
        for place in by_what.get(what, []):
            item = items[place]
            beside = items[place + 1 : place + 2]
            if not (beside and beside[0].at == item.at) and is_so(items, place, fields[item.field]):
                item.what = named
            else:  # or its language knows it as the name of goods anyway
                left_out.add(place)
    return [item for place, item in enumerate(items) if place not in left_out]


def _is_inverter(items: list[Item], place: int, tokens: list[str]) -> bool:
    """Do watts of an inverter stand directly beside it, or a number of inputs close behind?"""
    item = items[place]
    behind = [one for one in items[place + 1 : place + 4] if one.sentence == item.sentence]
    power = next((one for one in behind if one.what == NUMBER), None)
    if power is not None and _is_power(power, _INVERTER_W) and _joins(tokens[item.to : power.at]):
        return True
    counted = [one.what for one in behind if one.at - item.to <= _FAR and not one.unit]
    if counted[:2] == [NUMBER, "inputs"]:
        return True
    before = items[place - 1] if place else None
    ends = not tokens[item.to : item.to + 1] or not (tokens[item.to].isalpha() or tokens[item.to] in "-/")
    return ends and before is not None and before.to == item.at and _is_power(before, _INVERTER_W) and not before.peak


def _joins(between: list[str]) -> bool:
    """Is it nothing, a sign or a small word: "micro de 800 W", "micro: 800 W"?"""
    return not between or (len(between) == 1 and len(between[0]) <= _SMALL_WORD)


def _is_panel(items: list[Item], place: int, tokens: list[str]) -> bool:
    """Does a number stand directly before it, and watts of a panel directly behind it or its point?"""
    item = items[place]
    if not place or place + 1 == len(items):
        return False
    count, power = items[place - 1], items[place + 1]
    counted = count.what == NUMBER and not count.unit and count.to == item.at and 1 <= count.value <= _MOST_COUNT
    point = tokens[item.to : item.to + 1] == ["."]
    return counted and power.at == item.to + point and _is_power(power, _PANEL_W)


def _is_power(one: Item, bounds: tuple[float, float]) -> bool:
    return one.what == NUMBER and one.unit == "W" and bounds[0] <= one.value <= bounds[1]
