"""Is all of it sold already, as far as the text tells?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER

_OPENS = frozenset(".!?\n|•;*([:-,#")
_CLOSES = frozenset(".!?\n|•;*)]:-,#")


def is_sold(scene: Scene) -> bool:
    """A word for it stands alone ("Reserved. SOLD!"), or is the first of the title, not "sold as seen", "one sold"."""
    return any(_alone(scene, place) for place in scene.said("sold"))


def _alone(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    before = tokens[item.at - 1] if item.at else "\n"
    behind = tokens[item.to] if item.to < len(tokens) else "\n"
    if before not in _OPENS:
        return False
    if behind in _CLOSES:
        return not ((before == "," or behind == ",") and _of_some(scene, place))
    return item.field == 0 and item.at == 0 and behind not in scene.small.sold_manner


def _of_some(scene: Scene, place: int) -> bool:
    """Is a number or what is left told beside it in its sentence: "one sold, three left"?"""
    near = (*scene.back(place), *scene.ahead(place))
    return any((one.what == NUMBER and not one.unit) or one.what in {"part", "stock"} for one in near)
