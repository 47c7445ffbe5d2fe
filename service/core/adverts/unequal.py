"""Which of two values of one rating or limit is taken: "65 V max on the web, 55 V max on the label"?

Of two limits of an input the lower, whatever says so, for a panel that fits it fits the other, too; of two ratings of a
panel what is on its label. Both raise a doubt.
"""

from service.core.adverts.places_of_pieces import first_from
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

CONFLICT = "q:rating_conflict"
_Found = dict[str, tuple[float, Item, float]]
_LIMITS = {name: f"{name} again" for name in ("max_in", "max_current", "max_short_circuit")}
_UNSURE = " unsure"
_ALIKE, _APART = 1.03, 1.6  # further apart they are values of different things
_OTHERS = frozenset(("isc", "imp", "vmp", "mpp_point", "tracking", "input_range", "start", "system", "battery",
                     "ac_out", "output_current", "surge", "dc_power", "power", "voc_coefficient"))  # fmt: skip
_LABELS = frozenset(("label", "p:label"))
_SHORT = frozenset(("isc", "max_sc"))
_GREATEST = frozenset(("max_in", "input_current", "max_sc"))
_BACK, _AHEAD, _TO_MAX = 10, 6, 2


def keep(found: _Found, name: str, item: Item, sure: float = 0.93) -> None:
    """Keeps the first value of a name, and the lowest further one of a limit that differs, until all are read."""
    first = found.setdefault(name, (item.value, item, sure))
    again = _LIMITS.get(name)
    if again is None or item.value == first[0]:
        return
    if again not in found or item.value < found[again][0]:
        found[again] = (item.value, item, sure)


def lower_of(scene: Scene, found: _Found) -> None:
    """Of two values of one limit the lower one is kept, with a doubt unless they are of two inputs."""
    for name, kept in _LIMITS.items():
        if kept not in found:
            continue
        again = found.pop(kept)
        first, second = found[name][1], again[1]
        if not _near(first, second):
            continue
        one, other = _beside(scene, first), _beside(scene, second)
        of_others = _OTHERS | _SHORT if name != "max_short_circuit" else _OTHERS - _SHORT
        if one is None or other is None or (one ^ other) & of_others:
            continue
        if again[0] < found[name][0]:
            found[name] = again
        if not ("inputs" in one and "inputs" in other):
            _doubt(scene, second)


def keep_of_label(scene: Scene, found: _Found, name: str, item: Item) -> None:
    """Of two values of a rating the one on the label is kept; of two in one sentence, none on a label, neither."""
    first = found[name][1]
    if not _near(first, item):
        return
    labels = [bool(_clause(scene, one) & _LABELS) for one in (first, item)] if scene.tells(*_LABELS) else [False, False]
    if labels[0] != labels[1]:
        _doubt(scene, item)
        if labels[1]:
            found[name] = (item.value, item, 0.9)
    elif first.sentence == item.sentence and not labels[0]:
        _doubt(scene, item)
        found[name + _UNSURE] = found[name]


def leave_out_unsure(found: _Found) -> None:
    """Ratings of which two values are told and nobody knows which holds."""
    for name in [one for one in found if one.endswith(_UNSURE)]:
        del found[name]
        found.pop(name.removesuffix(_UNSURE), None)


def _near(one: Item, other: Item) -> bool:
    low, high = sorted((one.value, other.value))
    return low > 0 and _ALIKE < high / low <= _APART and one.field == other.field


def _beside(scene: Scene, item: Item) -> frozenset[str] | None:
    """The meanings in the clause of a figure that is told to be a greatest one; None where it is not."""
    whats = _clause(scene, item)
    return None if whats.isdisjoint(_GREATEST) else whats


def _clause(scene: Scene, item: Item) -> frozenset[str]:
    """What stands in the clause of a figure, back to the figure before it and on to the next one."""
    place = place_of(scene, item)
    found: list[str] = []
    for one in scene.back(place, _BACK):
        if one.clause != item.clause or (one.what == NUMBER and one.unit == item.unit):
            break
        found.append(one.what)
    for one in scene.ahead(place, _AHEAD):
        if one.clause != item.clause or (one.what == NUMBER and one.unit):
            break
        found.append(one.what)
    return frozenset(found)


def place_of(scene: Scene, item: Item) -> int:
    """Where an item stands in the row of all, which is one of fields and pieces."""
    place = first_from(scene.items, item.field, item.at)
    while scene.items[place] is not item:
        place += 1
    return place


def _doubt(scene: Scene, item: Item) -> None:
    scene.by_what.setdefault(CONFLICT, []).append(place_of(scene, item))
