"""Are panels of two powers offered together: "mix of 235 and 250 W", so that no single power holds for all?"""

from collections.abc import Sequence

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_JOINS = frozenset(("and", "und", "en", "et", "y", "e", "i", "oraz", "a", "og", "or", "oder", "of", "ou", "o", "lub",
                    "nebo", "eller", "to", "bis", "tot", "hasta", "fino", "do", "ate", "az", "til", "+", "&", "/",
                    "plus"))  # fmt: skip
_BOUNDS_W = (30.0, 800.0)
_LEAST_SHARE, _LIKE_SHARE = 0.35, 0.99  # other figures are farther apart, the same power is nearer
_NEAR = 4


def of_one_sort(scene: Scene, kind: str, powers: list[Item]) -> list[Item]:
    """The powers of panels; none where they are of two sorts. A set has powers of its panels and of its inverter."""
    return [] if kind == "panel" and powers and _two_sorts(scene, powers) else powers


def _two_sorts(scene: Scene, powers: Sequence[Item]) -> bool:
    """Does another power stand joined before one of ``powers``, with or without its unit?"""
    for place in scene.units.get("W", ()):
        item = scene.items[place]
        if not any(item is one for one in powers):
            continue
        for one in scene.back(place, 4):
            between = scene.tokens[item.field][one.to : item.at]
            if len(between) > _NEAR:
                break
            if _is_power(scene, one) and _differ(one, item) and _joined(scene, one, between):
                return True
    return False


def _is_power(scene: Scene, one: Item) -> bool:
    if one.what != NUMBER or one.unit not in {"", "W"} or one.spelled or one.glued in {"x", "-"}:
        return False
    tokens = scene.tokens[one.field]
    return "x" not in tokens[max(one.at - 1, 0) : one.at] or one.unit == "W"


def _differ(one: Item, item: Item) -> bool:
    low, high = sorted((one.value, item.value))
    return _BOUNDS_W[0] <= low and high <= _BOUNDS_W[1] and _LEAST_SHARE < low / high < _LIKE_SHARE


def _joined(scene: Scene, one: Item, between: Sequence[str]) -> bool:
    """Is nothing but "and" between them, and a count before the second; or are they said to be mixed?"""
    if scene.in_sentence(one.sentence, "mixed"):
        return not {"(", ")"}.intersection(between)
    counted = [word for word in between if word not in _JOINS]
    if one.unit != "W":
        return bool(between) and not counted
    return len(counted) < len(between) and all(word == "x" or word.isdigit() for word in counted)
