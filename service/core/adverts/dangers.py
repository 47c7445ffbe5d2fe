"""Does a seller tell of a shock, of a switch that trips, of a fault to earth, or of something that got hot or burnt?

Some of it is said in a row of words ("isolation fault"), some by two that stand apart: what trips, and that it does
("bei Regen fliegt ab und zu der FI raus"), or what is hot ("one plug has melted"). What guards against such things is
none of them.
"""

from collections.abc import Set

from service.core.adverts.asked_roles import DANGERS
from service.core.adverts.scene import Scene
from service.core.adverts.stretch import stretch_around
from service.core.adverts.walk import INVERTERS, PANELS

DANGER, _MAY_SHOCK = "q:shock_or_fire", "may_shock"
_GOODS = PANELS | INVERTERS
_ENDS = frozenset(".,;:!?()\n|•")
_SENTENCE_ENDS = frozenset(".!?\n")
_NEAR, _HOT, _BESIDE, _SENTENCE, _PLACED = 8, 6, 3, 16, 10  # pieces
_TOLD_APART = frozenset(("ma", "-"))  # "trips at 30 mA", "hot-dip"


def danger_told(scene: Scene) -> bool:
    """Is any of that said, and not denied?"""
    if any(not (scene.denied(at, behind=False) or _guards(scene, at)) for at in scene.by_what.get(DANGER, ())):
        return True
    if any(_shocks(scene, at) and not scene.denied(at, behind=False) for at in scene.by_what.get(_MAY_SHOCK, ())):
        return True
    title, body = scene.field_roles[0] & DANGERS, scene.field_roles[1] & DANGERS
    return (title > 0 and _told_apart(scene, 0)) or (body > 0 and _told_apart(scene, 1))


def _told_apart(scene: Scene, field: int) -> bool:
    """Does something trip, or get hot, by two words of a field?"""
    small, tokens = scene.small, scene.tokens[field]
    for thing, said, reach in ((small.breakers, small.tripping, _NEAR), (small.hot_places, small.overheated, _HOT)):
        places = [] if said.isdisjoint(tokens) else [at for at, word in enumerate(tokens) if word in thing]
        if any(_beside(scene, field, at, said, reach) for at in places):
            return True
    return False


def _shocks(scene: Scene, place: int) -> bool:
    """Does a word for where one gets a shock stand near by in its sentence, or goods directly before it?

    A price may be a shock, nettles tingle, and a horse kicks.
    """
    item = scene.items[place]
    tokens, small = scene.tokens[item.field], scene.small
    low, high = stretch_around(tokens, item.at, item.to, _PLACED, _SENTENCE_ENDS)
    near = tokens[low:high]
    if not (small.shocking_places.isdisjoint(near) and small.hot_places.isdisjoint(near)):
        return True
    return any(
        one.what in _GOODS and one.clause == item.clause and item.at - one.to <= _BESIDE for one in scene.back(place, 4)
    )


def _guards(scene: Scene, place: int) -> bool:
    """Is it told of what guards against it: "ground fault detection", "protección contra fallo de aislamiento"?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    around = tokens[max(item.at - _BESIDE, 0) : item.to + _BESIDE]
    return not scene.small.guarding.isdisjoint(around)


def _beside(scene: Scene, field: int, at: int, said: Set[str], reach: int) -> bool:
    """Is that said of the thing in its clause, and neither denied nor of one before there were panels?"""
    tokens = scene.tokens[field]
    low, high = stretch_around(tokens, at, at + 1, reach, _ENDS)
    there = next((one for one in range(low, high) if tokens[one] in said), None)
    if there is None or not _TOLD_APART.isdisjoint(tokens[there + 1 : there + 2]) or "ma" in tokens[low:high]:
        return False
    if not scene.small.household_things.isdisjoint(tokens[low:high]):
        return False
    for place in scene.by_what.get("without", ()):
        item = scene.items[place]
        if item.field == field and low <= item.at < high:
            return False
    return not _before_panels(scene, field, at, high)


def _before_panels(scene: Scene, field: int, at: int, high: int) -> bool:
    """Is it the old thing, before something else came: "the old breaker tripped before we had solar"?"""
    tokens, small = scene.tokens[field], scene.small
    if small.old_things.isdisjoint(tokens[max(at - _BESIDE, 0) : at + 2]):
        return False
    end = at + 1
    while end < min(max(high, at + _SENTENCE), len(tokens)) and tokens[end] not in _SENTENCE_ENDS:
        end += 1
    return not small.before_then.isdisjoint(tokens[at:end])
