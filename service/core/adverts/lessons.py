"""Is knowledge offered and no goods: a book, a course or a calculator about panels, or a plan of somebody's plant?

Asked of the title. A guide that comes along with goods, a course that they were used on and a plan that has changed
sell nothing of the kind; nor does a title with watts or a number.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import INVERTERS, PANELS, Item

_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_OF_GOODS = ("used", "unused", "pickup", "selling", "shipping")
_ENDS = frozenset(".,;:!?()\n|+&/•*=")
_MOST_BETWEEN, _MOST_BEFORE = 3, 3  # pieces


def sells_knowledge(scene: Scene) -> bool:
    """Does a word for a book, a course or a calculator head the title?"""
    tokens, small = scene.tokens[0], scene.small
    at = next((at for at, word in enumerate(tokens) if word in small.lessons or word.endswith(small.lesson_ends)), -1)
    if at < 0 or _told_of_goods(scene):
        return False
    goods = _goods(scene)
    low = at
    while low and tokens[low - 1] not in _ENDS:
        low -= 1
    if not _parted(tokens[low:at], small) or (low and any(one.to <= low for one in goods)):
        return False
    behind = next((one for one in goods if one.at > at), None)
    if behind is None:
        return True
    between = tokens[at + 1 : behind.at]
    two = (small.coming_with | small.joining) - small.of_place  # "i" joins in one language, and is "in" in another
    return two.isdisjoint(between) and (_ENDS.isdisjoint(between) or any(one.to <= at for one in goods))


def offers_plans(scene: Scene) -> bool:
    """Is it a title such as "planning of your solar plant", "PV planning service"?"""
    tokens, small = scene.tokens[0], scene.small
    at = next((at for at, word in enumerate(tokens) if word in small.plans), -1)
    if at < 0 or _told_of_goods(scene) or scene.tells("selling", "used", "unused"):
        return False
    if at == 0:
        to = 1
        while to < min(_MOST_BETWEEN + 1, len(tokens)) and (
            tokens[to] == "'" or tokens[to] in small.of_place or tokens[to] in small.yours
        ):
            to += 1
        return to < len(tokens) and _names_plant(scene, to)
    before = at - 1 - (tokens[at - 1] == "-")
    ended = at + 1 == len(tokens) or tokens[at + 1].startswith(small.work)
    named = tokens[before].startswith(small.plant_named) or any(one.to == before + 1 for one in _goods(scene))
    return ended and before >= 0 and named


def _goods(scene: Scene) -> list[Item]:
    """Goods that the title names."""
    return [one for one in map(scene.items.__getitem__, scene.places(_GOODS)) if one.field == 0]


def _told_of_goods(scene: Scene) -> bool:
    """Are there ratings of goods, watts or a number in the title, or watts of what is to be fetched or was used?"""
    if scene.tells("voc", "isc"):
        return True
    watts = scene.units.get("W", [])
    if any(scene.items[at].field == 0 for unit in ("", "W") for at in scene.units.get(unit, [])):
        return True
    return bool(watts) and scene.tells(*_OF_GOODS)


def _parted(before: list[str], small: SmallWords) -> bool:
    """Does nothing before a lesson make it a thing beside goods: "with guide", "from a course"?"""
    near = before[-_MOST_BEFORE:]
    return all(words.isdisjoint(near) for words in (small.coming_with, small.coming_along, small.of_place))


def _names_plant(scene: Scene, at: int) -> bool:
    return scene.tokens[0][at].startswith(scene.small.plant_named) or any(one.at == at for one in _goods(scene))
