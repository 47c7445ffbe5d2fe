"""How many pairs are offered where the price is that of a pair: "pair of panels. I have 5 pairs, 50 per pair"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, Item

_ENDS = frozenset(".,;!?)\n|")
_PASSED = frozenset("./")  # "kr. pr. par"
_THERE = ("stock", "left")
_MOST, _PAIR, _TO_PAIR = 2500, 2, 4


def pairs_by_price(scene: Scene, places: list[int]) -> tuple[int, int] | None:
    """The number of pairs and the two of each; None where no number, or several, count bare pairs.

    ``places``: those of bare figures.
    """
    counts = {scene.items[place].value for place in places if _counts_pairs(scene, scene.items[place])}
    if len(counts) != 1 or not _priced(scene):
        return None
    return int(counts.pop()), _PAIR


def _counts_pairs(scene: Scene, item: Item) -> bool:
    """Does a word for pairs stand behind the number, and nothing that they are pairs of?"""
    tokens, to = scene.tokens[item.field], item.to
    if item.unit or item.glued or item.value % 1 or not 1 < item.value <= _MOST:
        return False
    if to >= len(tokens) or tokens[to] not in scene.small.pairs:
        return False
    if to + 1 >= len(tokens) or tokens[to + 1] in _ENDS:
        return True
    return any(scene.stands(what, item.field, to + 1) for what in _THERE)


def _priced(scene: Scene) -> bool:
    """Is an amount one of money for a pair: "50 per pair", "je Paar 90"?"""
    for unit in scene.units.keys() & MONEY_UNITS:
        for place in scene.units[unit]:
            item = scene.items[place]
            tokens = scene.tokens[item.field]
            words = [word for word in tokens[item.to : item.to + _TO_PAIR] if word not in _PASSED][:_PAIR]
            if _per_pair(scene, words) or _per_pair(scene, tokens[max(item.at - _PAIR, 0) : item.at]):
                return True
            lot = scene.behind(place)
            if lot is not None and lot.what == "lot" and lot.at == item.to and _names_pair(scene, tokens[lot.to - 1]):
                return True
    return False


def _per_pair(scene: Scene, words: list[str]) -> bool:
    small = scene.small
    if len(words) < _PAIR or not _names_pair(scene, words[1]):
        return False
    return words[0] in small.by_set or words[0] in small.the_set or words[0] in small.per


def _names_pair(scene: Scene, word: str) -> bool:
    small = scene.small
    return word in small.pair or word in small.pairs or word in small.pair_or_not
