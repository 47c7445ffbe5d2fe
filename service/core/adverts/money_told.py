"""Which figures are amounts of money?"""

from service.core.adverts.scene import Scene, in_order
from service.core.adverts.walk import MONEY_UNITS


def amounts_told(scene: Scene) -> list[int]:
    """Their places, in order."""
    return in_order([places for unit, places in scene.units.items() if unit in MONEY_UNITS])
