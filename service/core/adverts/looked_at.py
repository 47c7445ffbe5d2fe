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
    if item.value < _FEWEST:
        return False
    tokens, views, to = scene.tokens[item.field], scene.small.views, item.to
    return any(tokens[at] in views for at in range(to, min(to + _TO_VIEWS, len(tokens))))
