"""Which volts and amperes are denied, and which stand in their place: "not 18 A but 14 A", "14 A instead of 18 A"?"""

from itertools import pairwise

from service.core.adverts.asked_roles import INSTEAD
from service.core.adverts.scene import Scene
from service.core.adverts.together import NOTHING, Together, told_together
from service.core.adverts.walk import NUMBER

_UNITS = frozenset(("V", "A", "W"))
_NAMES = frozenset(("voc", "isc", "vmp", "imp", "mpp_point", "max_in", "start", "input_current", "output_current",
                    "max_sc", "tracking", "input_range", "ac_out"))  # fmt: skip
_NEAR, _BEHIND = 4, 4  # pieces from what is denied to what stands in its place; items


def told_otherwise(scene: Scene, kind: str) -> Together:
    """What several have together, and what is denied: neither is read, but each may name what is."""
    several, denied = told_together(scene, kind), corrected_in(scene)
    if not denied.of_all:
        return several
    return Together(several.of_all | denied.of_all, {**several.total_of, **denied.total_of})


def corrected_in(scene: Scene) -> Together:
    """Places of what is denied; and their place by that of what is told instead, which has their name."""
    if not (scene.roles & INSTEAD or "without" in scene.by_what):
        return NOTHING
    denied = [place for place in _behind_no(scene) if scene.items[place].unit in _UNITS]
    denied += [place for place in _instead(scene) if scene.items[place].unit in _UNITS]
    if not denied:
        return NOTHING
    true: dict[int, int] = {}
    for place in denied:
        item = scene.items[place]
        for at, one in enumerate(scene.ahead(place, _BEHIND), place + 1):
            if one.at - item.to > _NEAR or one.what in _NAMES:
                break
            if one.what == NUMBER and one.unit == item.unit:
                true[at] = place
                break
    return Together(frozenset(denied), true)


def _behind_no(scene: Scene) -> list[int]:
    """Places of the figures directly behind a "no": "not 18 A", but not "not over 18 A", "not available, 18 A"."""
    found: list[int] = []
    for no in scene.by_what.get("without", []):
        word = scene.items[no]
        if word.to - word.at > 1 or not "".join(scene.tokens[word.field][word.to : word.to + 1])[:1].isdigit():
            continue
        found += [
            no + step
            for step, one in enumerate(scene.ahead(no, 2), 1)
            if one.what == NUMBER and one.at == word.to and not one.spelled
        ]
    return found


def _instead(scene: Scene) -> list[int]:
    """Places of the figures behind "instead of", with a figure of the same unit before that."""
    found: list[int] = []
    if not scene.roles & INSTEAD:
        return found
    for unit in scene.units.keys() & _UNITS:
        places = scene.units[unit]
        for before, place in pairwise(places):
            one, item = scene.items[before], scene.items[place]
            between = scene.tokens[item.field][one.to : item.at] if one.sentence == item.sentence else []
            if 0 < len(between) <= _NEAR and not scene.small.instead.isdisjoint(between[-2:]):
                found.append(place)
    return found
