"""Is an inverter off the grid told of, or only that panels are for a camper or a hut?"""

from service.core.adverts.asked_roles import ISLAND
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS

_OFF_GRID = "q:off_grid"
_BATTERIES_V = frozenset((12.0, 24.0, 48.0))


def leave_out_off_grid_places(scene: Scene, kind: str) -> None:
    """Where panels or other goods are sold and no inverter is named, what they are for raises no doubt of one."""
    places = scene.by_what.get(_OFF_GRID)
    if not places or kind not in {"panel", "other"} or scene.tells(*INVERTERS):
        return
    if not any(word.startswith(scene.small.inverting) for field in (0, 1) for word in scene.different(field)):
        del scene.by_what[_OFF_GRID]


def add_off_grid_by_battery(scene: Scene, kind: str) -> None:
    """An inverter that runs an island from a battery is off the grid: "battery voltage 48 V, 3000 W island"."""
    if kind != "inverter" or _OFF_GRID in scene.by_what or not scene.roles & ISLAND:
        return
    small, body = scene.small, scene.different(1)
    if small.island.isdisjoint(body):
        return
    volts = [at for at in scene.units.get("V", []) if scene.items[at].value in _BATTERIES_V]
    if volts and any(word.startswith(small.battery_word) for word in body):
        scene.by_what[_OFF_GRID] = volts[:1]
