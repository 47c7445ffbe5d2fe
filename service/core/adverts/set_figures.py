"""Do figures alone tell a set: "kit 820 Wp / 800 W", "4x 410 Wp, 1x 1600 W inverter"?"""

from itertools import pairwise

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_INVERTERS = ("inverter_one", "inverter_many")
_PANEL_W = (200.0, 720.0)
_ROUND_W = 50.0  # inverters have round powers, so that other ones are those of panels
_NEAR = 4


def stroked(scene: Scene) -> bool:
    """Do watts of panels and lesser ones of an inverter stand with a stroke between?"""
    return any(
        one.peak and not two.peak and one.value > two.value and scene.tokens[one.field][one.to : two.at] == ["/"]
        for one, two in _pairs(scene)
    )


def counted(scene: Scene) -> bool:
    """Do watts that only panels have stand behind a count and x, and a counted inverter's watts behind them?"""
    return any(
        _times(scene, one)
        and _times(scene, two)
        and (one.peak or (_PANEL_W[0] <= one.value <= _PANEL_W[1] and one.value % _ROUND_W))
        and not two.peak
        and not _of_inverter(scene, one)
        and _of_inverter(scene, two)
        for one, two in _pairs(scene)
    )


def _pairs(scene: Scene) -> list[tuple[Item, Item]]:
    """Watts that follow one another in a sentence."""
    watts = [scene.items[place] for place in scene.units.get("W", ())]
    return [(one, two) for one, two in pairwise(watts) if one.sentence == two.sentence]


def _times(scene: Scene, item: Item) -> bool:
    """Does "4x" stand before it, or before the name between?"""
    tokens = scene.tokens[item.field]
    at = next((at for at in range(item.at - 1, max(item.at - _NEAR, 1) - 1, -1) if tokens[at] == "x"), 0)
    return at > 0 and tokens[at - 1].isdigit()


def _of_inverter(scene: Scene, item: Item) -> bool:
    """Does the name of an inverter stand directly beside it?"""
    near = (scene.items[at] for what in _INVERTERS for at in scene.by_what.get(what, ()))
    return any(one.field == item.field and (one.at == item.to or one.to == item.at) for one in near)
