"""Is it asked whether somebody sells such goods: "Is anyone selling two panels?"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, Item

_ENDS = frozenset((".", "!", "?", "\n", ";"))
_SELLING = frozenset(("sells", "selling"))
_FARTHEST = 40  # pieces to the end of a question


def is_asked_for(scene: Scene) -> bool:
    """Does a question hold somebody and a word for selling, while nothing is sold or priced elsewhere?"""
    for place in scene.by_what.get("someone", ()):
        item = scene.items[place]
        near = (*scene.back(place), *scene.ahead(place))
        if any(one.what in _SELLING for one in near) and _is_question(scene, item) and not _priced(scene, item):
            return not any(scene.items[at].sentence != item.sentence for at in scene.by_what.get("selling", ()))
    return False


def _is_question(scene: Scene, item: Item) -> bool:
    tokens = scene.tokens[item.field]
    return next((word for word in tokens[item.to : item.to + _FARTHEST] if word in _ENDS), "") == "?"


def _priced(scene: Scene, item: Item) -> bool:
    """Is an amount of money told outside the question?"""
    return any(scene.items[at].sentence != item.sentence for unit in CURRENCIES for at in scene.units.get(unit, ()))
