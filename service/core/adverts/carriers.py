"""Are amperes those that a cable, a connector, a breaker or a switch carries: "cable 3x1.5 mm² (16 A)"?

A sort of connectors that only tells which input is meant carries nothing of its own: "MC4 input max. 14 A".
"""

from service.core.adverts.scene import Scene
from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_PARTS = frozenset((",", ";", "|", "\n", "!", "?", ")", "•"))
_OF_INPUTS = frozenset(("isc", "imp", "input_current", "max_sc", "inputs", "tracking", "input_range"))
_BESIDE = frozenset(("-", "(", ")", "/"))
_GOODS = INVERTERS | PANELS
_MOST_INPUT_A = 25.0  # connectors bear 30 A
_MOST_INPUT_V = 150.0  # above it the volts may be those of the carrier, too: "switch 1000 V / 32 A"
_FAR, _TO_CARRIER, _NEAR = 9, 3, 6  # pieces, pieces, items


def carried_by_others(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for one of these stand before amperes in their part of the sentence, and nothing of an input between?

    A point behind a word that is cut short ends no part: "cable max. 16 A".
    """
    tokens, small = scene.tokens[item.field], scene.small
    stop = max(item.at - _FAR, 0)
    for one in scene.back(place, _NEAR):
        if _of_other_things(scene, one):
            if item.value > _MOST_INPUT_A and one.what == "inputs" and _at_input(scene, tokens, one.at):
                return True
            stop = max(stop, one.to)
            break
    for at in range(item.at - 1, stop - 1, -1):
        word = tokens[at]
        if word in _PARTS or (word == "." and at > 0 and tokens[at - 1] not in small.line_cut_short):
            return False
        if word in small.carriers or word.startswith(small.other_wires):
            return item.value > _MOST_INPUT_A or not _tells_input(tokens, at, small)
    return False


def _at_input(scene: Scene, tokens: list[str], at: int) -> bool:
    """Is it only where a carrier is: "MC4 connectors at the input rated 30 A"?"""
    for to in range(at - 1, max(at - 1 - _TO_CARRIER, -1), -1):
        if tokens[to] in scene.small.carriers:
            return True
        if not tokens[to].isalpha():
            return False
    return False


def _tells_input(tokens: list[str], at: int, small: SmallWords) -> bool:
    """Does a sort of connectors stand directly beside a word for an input: "MC4 input", "entrada (MC4)"?"""
    if not tokens[at].startswith(small.solar_plug) or tokens[at] not in small.carriers:
        return False
    before, to = at - 1, at + 1
    while to < len(tokens) and (tokens[to].isdigit() or tokens[to] in _BESIDE):
        to += 1
    while before >= 0 and tokens[before] in _BESIDE:
        before -= 1
    if to < len(tokens) and tokens[to] in small.carriers:  # "input, MC4 connectors 20 A"
        return False
    return (to < len(tokens) and tokens[to].startswith(small.inputs_named)) or (
        before >= 0 and tokens[before].startswith(small.inputs_named)
    )


def _of_other_things(scene: Scene, one: Item) -> bool:
    if one.what == NUMBER:
        return one.unit in {"A", "W"} or (one.unit == "V" and one.value <= _MOST_INPUT_V)
    if one.what == "input_current" and one.to - one.at > 1:  # "up to" is no name of an input
        return any(word.startswith(scene.small.inputs_named) for word in scene.tokens[one.field][one.at : one.to])
    return one.what in _OF_INPUTS or one.what in _GOODS
