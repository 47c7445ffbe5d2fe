"""Are amperes those that a cable, a connector, a breaker or a switch carries: "cable 3x1.5 mm² (16 A)"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_PARTS = frozenset((",", ";", "|", "\n", "!", "?", ")", "•"))
_OF_INPUTS = frozenset(("isc", "imp", "input_current", "max_sc", "inputs", "tracking", "input_range"))
_GOODS = INVERTERS | PANELS
_MOST_INPUT_V = 150.0  # above it the volts may be those of the carrier, too: "switch 1000 V / 32 A"
_FAR, _NEAR = 9, 6  # pieces, items


def carried_by_others(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for one of these stand before amperes in their part of the sentence, and nothing of an input between?

    A point behind a word that is cut short ends no part: "cable max. 16 A".
    """
    tokens, small = scene.tokens[item.field], scene.small
    stop = max(item.at - _FAR, 0)
    for one in scene.back(place, _NEAR):
        if _of_other_things(scene, one):
            stop = max(stop, one.to)
            break
    for at in range(item.at - 1, stop - 1, -1):
        word = tokens[at]
        if word in _PARTS or (word == "." and at > 0 and tokens[at - 1] not in small.line_cut_short):
            return False
        if word in small.carriers or word.startswith(small.other_wires):
            return True
    return False


def _of_other_things(scene: Scene, one: Item) -> bool:
    if one.what == NUMBER:
        return one.unit in {"A", "W"} or (one.unit == "V" and one.value <= _MOST_INPUT_V)
    if one.what == "input_current" and one.to - one.at > 1:  # "up to" is no name of an input
        return any(word.startswith(scene.small.inputs_named) for word in scene.tokens[one.field][one.at : one.to])
    return one.what in _OF_INPUTS or one.what in _GOODS
