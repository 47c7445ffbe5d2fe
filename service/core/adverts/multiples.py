"""Is a number of cells only a part of all: "2 x 30 cells", "30 cells x 2"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_NEAR = 2


def multiplied(scene: Scene, place: int, item: Item) -> bool:
    """Does the number of cells at a place stand beside an x?"""
    tokens = scene.tokens[item.field]
    if item.at > 1 and tokens[item.at - 1] == "x" and tokens[item.at - 2].isdigit():
        return True
    cells = next((one for one in scene.ahead(place, 3) if one.what == "cells" and one.at - item.to <= _NEAR), None)
    return cells is not None and tokens[cells.to : cells.to + 1] == ["x"]


def multiplies_cells(scene: Scene, place: int, item: Item) -> bool:
    """Does a number behind an x multiply cells, so that it counts no panels?"""
    return any(one.what in {"cells", "half"} and one.to == item.at - 1 for one in scene.back(place, 3))
