"""Which numbers tell how many people looked at an advert: "300 views already", "300 people have looked at this"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_TO_VIEWS, _FEWEST = 2, 10  # pieces; looks worth telling of


def leave_out_views(scene: Scene) -> None:
    """They count no goods."""
    counts = scene.units.get("", [])
    kept = [at for at in counts if not _of_views(scene, scene.items[at])]
    if len(kept) < len(counts):
        scene.units[""] = kept


def _of_views(scene: Scene, item: Item) -> bool:
    behind = scene.tokens[item.field][item.to : item.to + _TO_VIEWS]
    return item.value >= _FEWEST and bool(behind) and not scene.small.views.isdisjoint(behind)
