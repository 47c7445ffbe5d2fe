"""Is an inverter looked for beside the panels that are sold: "£60 each, and I'm looking for an inverter of 800 W"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS

_GOODS = INVERTERS | PANELS | {"set_one", "set_many"}
_TO_WANTED, _BEHIND, _TO_TAKER = 5, 1, 4


def is_looked_for(scene: Scene, place: int) -> bool:
    """Does a word for looking stand before it in the text, or directly behind it, that looks for no buyer?

    Panels are told of before it; else it is what the whole advert looks for.
    """
    item = scene.items[place]
    if not item.field or "wanted" not in scene.near(place, 8, 3):
        return False
    if all(scene.by_what[what][0] > place for what in scene.by_what.keys() & PANELS):
        return False
    for step, one in enumerate(scene.back(place, 8), 1):
        if one.what in _GOODS or item.at - one.to > _TO_WANTED:
            break
        if one.what == "wanted":
            return _for_itself(scene, place - step)
    for step, one in enumerate(scene.ahead(place, 2), 1):
        if one.what == "wanted" and one.clause == item.clause and 0 <= one.at - item.to <= _BEHIND:
            return _for_itself(scene, place + step)
    return False


def _for_itself(scene: Scene, place: int) -> bool:
    """Is it not denied, and no buyer or new home that is looked for?"""
    item = scene.items[place]
    taken = any(one.what == "taker" and one.at - item.to <= _TO_TAKER for one in scene.ahead(place, 4))
    return not (taken or scene.denied(place) or scene.in_sentence(item.sentence, "wanted_not"))
