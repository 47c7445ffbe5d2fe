"""In how many equal parts are they offered: "4 sets of 2 (= 8)", "3 lots de 4 panneaux"?"""

from itertools import chain

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_SETS = ("set_one", "set_many", "set_weak")
_GOODS = frozenset(("panel_one", "panel_many", "piece"))
_MOST, _MOST_PARTS = 5000, 200
_FEWEST, _MOST_LOOKED_AT = 2, 20
_BETWEEN, _TO_SUM = 3, 5  # pieces
_NO_SET = frozenset(",;.|+/")

Bundles = tuple[int, int]


def bundles_of(scene: Scene) -> Bundles | None:
    """The number of parts and of the pieces in each; None where the words do not tell both surely."""
    items = scene.items
    if "=" in scene.different[1] or "=" in scene.different[0]:
        bare = scene.units.get("", [])
        for number in range(2, len(bare)):
            total = items[bare[number]]
            if scene.tokens[total.field][total.at - 1] == "=":
                found = _parts(scene, items[bare[number - 2]], items[bare[number - 1]])
                if found and total.at - items[bare[number - 1]].to <= _TO_SUM and total.value == found[0] * found[1]:
                    return found
    known = scene.by_what
    for place in chain.from_iterable(known[what] for what in _SETS if what in known):
        if scene.whats[place - 1] == NUMBER and not items[place - 1].unit and items[place - 1].to == items[place].at:
            found = _of_goods(scene, place)
            if found:
                return found
    if all(map(scene.small.equal_sets.isdisjoint, scene.different[:2])):
        return None
    places = scene.units.get("", [])[:_MOST_LOOKED_AT]
    return next(filter(None, (_by_words(scene, place) for place in places)), None)


def by_bundle(scene: Scene, amount: Item) -> bool:
    """Is an amount told to be that of one of several equal sets: "110 € par lot"?"""
    behind = scene.tokens[amount.field][amount.to : amount.to + 2]
    return len(behind) == _FEWEST and behind[0] in scene.small.by_set and behind[1] in scene.small.equal_set


def _by_words(scene: Scene, place: int) -> Bundles | None:
    """As "5 lots de 2 panneaux": a word for equal sets, one that joins, and a number of goods."""
    one, tokens = scene.items[place], scene.tokens[scene.items[place].field]
    words = tokens[one.to : one.to + 2]
    if len(words) < _FEWEST or words[0] not in scene.small.equal_sets or words[1] not in scene.small.sets_by:
        return None
    ahead = scene.ahead(place, 9)
    at, two = next(((at, item) for at, item in enumerate(ahead) if item.what == NUMBER), (0, None))
    if (
        two is None
        or two.at != one.to + 2
        or not any(item.what in _GOODS and item.at == two.to for item in ahead[at + 1 :])
    ):
        return None
    return _parts(scene, one, two)


def _of_goods(scene: Scene, place: int) -> Bundles | None:
    """As "3 sets of 4 panels": do goods stand directly behind the number behind a word for sets?"""
    ahead = scene.ahead(place, 5)
    at, two = next(((at, one) for at, one in enumerate(ahead) if one.what == NUMBER), (0, None))
    if two is None or not any(one.what in _GOODS and one.at == two.to for one in ahead[at + 1 :]):
        return None
    return _parts(scene, scene.items[place - 1], two)


def _parts(scene: Scene, one: Item, two: Item) -> Bundles | None:
    """Two numbers with few words between them, in one sentence."""
    if one.field != two.field or one.sentence != two.sentence or not (_is_count(one) and _is_count(two)):
        return None
    between = scene.tokens[one.field][one.to : two.at]
    told = 1 <= len(between) <= _BETWEEN and _NO_SET.isdisjoint(between) and one.value * two.value <= _MOST
    return (int(one.value), int(two.value)) if told else None


def _is_count(one: Item) -> bool:
    return not one.unit and 1 < one.value <= _MOST_PARTS and one.value % 1 == 0 and one.glued not in {"-", "/", "."}
