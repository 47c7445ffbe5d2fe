"""How many panels belong to one set, as far as the text tells?"""

from service.core.adverts.goods import is_purpose
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, PANELS, Item

_MOST = 12
_CLOSE, _FAR = 2, 5
_PARTING = frozenset(("inverter_one", "inverter_many", "plus", "takes", "other_goods", "accessory"))

Count = tuple[int, Item]


def panels_of_set(scene: Scene, power: Item | None) -> Count | None:
    """The number that stands with the panels' watts, else with the word for panels; None where two numbers differ.

    A word in the singular without any number is one, where the plural stands nowhere.
    """
    by_watts = [found for at in scene.units.get("W", []) if _is(scene.items[at], power)
                and (found := _beside(scene, at)) is not None]  # fmt: skip
    if by_watts:
        return by_watts[0] if len({count for count, _ in by_watts}) == 1 else None
    places = sorted(at for what in PANELS for at in scene.by_what.get(what, []) if not _of_others(scene, at))
    by_word = [found for at in places if (found := _before(scene, at)) is not None]
    if by_word:
        return by_word[0] if len({count for count, _ in by_word}) == 1 else None
    if places and "panel_many" not in scene.by_what and "several" not in scene.by_what:
        return 1, scene.items[places[0]]
    return None


def _is(item: Item, power: Item | None) -> bool:
    return power is not None and item.value == power.value


def _beside(scene: Scene, place: int) -> Count | None:
    """Before the watts, panels' names between: "2 x 430 W", "two panels of 430 W"; or behind them: "430 W x 2"."""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    behind = next(iter(scene.ahead(place, 1)), None)
    if behind is not None and tokens[item.to : behind.at] == ["x"] and _counts(behind):
        return int(behind.value), behind
    for one in scene.back(place, 6):
        if item.at - one.to > _FAR or one.clause != item.clause:
            return None
        if one.what == NUMBER:
            return (int(one.value), one) if _counts(one) and not _is_part(tokens, one) else None
        if one.what in _PARTING:
            return None
    return None


def _before(scene: Scene, place: int) -> Count | None:
    """Close before the word for panels: "zwei Module"."""
    item = scene.items[place]
    for one in scene.back(place, 4):
        if item.at - one.to > _CLOSE or one.clause != item.clause:
            return None
        if one.what == NUMBER:
            return (int(one.value), one) if _counts(one) and not _is_part(scene.tokens[item.field], one) else None
    return None


def _counts(one: Item) -> bool:
    return (one.what == NUMBER and not one.unit and one.value == int(one.value) and 1 <= one.value <= _MOST
            and one.glued not in {"-", "/", "."})  # fmt: skip


def _is_part(tokens: list[str], one: Item) -> bool:
    """Does it stand in a size or a fraction: "x 2 x", "1/2"?"""
    return one.at > 1 and tokens[one.at - 1] in {"x", "/"} and tokens[one.at - 2][0].isdigit()


def _of_others(scene: Scene, place: int) -> bool:
    """Are they panels that something is for, or that do not come along?"""
    item = scene.items[place]
    return is_purpose(scene, place) or scene.denied(place, behind=False) or any(
        one.what in {"extra", "gone"} and one.clause == item.clause and item.at - one.to <= _FAR
        for one in scene.back(place, 4)
    )  # fmt: skip
