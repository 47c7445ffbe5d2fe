"""Is an inverter off the grid told of, or only that panels are for a camper or a hut?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS

_OFF_GRID = "q:off_grid"


def leave_out_off_grid_places(scene: Scene, kind: str) -> None:
    """Where panels or other goods are sold and no inverter is named, what they are for raises no doubt of one."""
    places = scene.by_what.get(_OFF_GRID)
    if not places or kind not in {"panel", "other"} or scene.tells(*INVERTERS):
        return
    if not any(word.startswith(scene.small.inverting) for field in (0, 1) for word in scene.different(field)):
        del scene.by_what[_OFF_GRID]
