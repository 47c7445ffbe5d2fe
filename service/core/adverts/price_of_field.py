"""For how many pieces is the amount of a page's field, by words on "the price": "price per pair", "prix pour deux"?"""

from collections.abc import Mapping

from service.core.adverts.bundles import names_set
from service.core.adverts.price_of_some import some_pieces
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_Told = tuple[Mapping[tuple[int, int], Item], Mapping[tuple[int, int], int]]
_ENDS = frozenset(",;!?\n|():")
_PAIR, _WINDOW, _TO_GOODS = 2, 9, 3
_SHORT = 2  # letters of "pr", whose point ends nothing


def pieces_of_field(scene: Scene, quantity: int) -> int | None:
    """The number; None where no words behind "price" tell one, or they tell more than there are."""
    small = scene.small
    numbers: dict[tuple[int, int], Item] = {}
    each: dict[tuple[int, int], int] = {}
    for field in (1, 0):
        if small.order_price.isdisjoint(scene.different(field)):
            continue
        if not numbers:
            items = [scene.items[place] for place in scene.by_what.get(NUMBER, [])]
            numbers = {(item.field, item.at): item for item in items}
            ones = [scene.items[place] for place in scene.by_what.get("each", [])]
            each = {(item.field, item.at): item.to for item in ones}
        tokens = scene.tokens[field]
        for at, word in enumerate(tokens):
            if word in small.order_price:
                found = _told_behind(scene, field, (numbers, each), at + 1)
                if found is not None and found <= quantity:
                    return found
    return None


def _told_behind(scene: Scene, field: int, told: _Told, at: int) -> int | None:
    """A pair or a number in the part of the sentence behind "price", with no word for one piece before it."""
    small, tokens, (numbers, each) = scene.small, scene.tokens[field], told
    if not _goes_on(scene, field, told, each.get((field, at - 1), -1)):  # "price each"
        return None
    for end in range(at, min(at + _WINDOW, len(tokens))):
        word = tokens[end]
        if word in _ENDS or (word == "." and len(tokens[end - 1]) > _SHORT):
            return None
        if end > at and (word in small.pair or word in small.pairs or word in small.pair_or_not):
            return _PAIR if _of_goods(scene, field, tokens, end + 1) else None
        number = numbers.get((field, end))
        if number is not None:
            joined = (
                names_set(scene, tokens[end - 1])
                or tokens[end - 1] in small.beside_pair
                or tokens[end - 1] in small.per_so_many
            )
            joined = joined or tokens[end - 1] in small.sets_by or tokens[end - 1] in small.for_so_much
            return some_pieces(scene, number, tokens) if joined and number.unit not in MONEY_UNITS else None
        if not _goes_on(scene, field, told, each.get((field, end), -1)):
            return None
    return None


def _goes_on(scene: Scene, field: int, told: _Told, at: int) -> bool:
    """Does a pair, a number or a set stand behind "each": "je zwei", "per pair"? ``at``: -1 where no such word is."""
    small, tokens = scene.small, scene.tokens[field]
    if at < 0:
        return True
    at += tokens[at : at + 1] == ["."]  # "pr. par"
    if at >= len(tokens):
        return False
    word = tokens[at]
    paired = word in small.pair or word in small.pairs or word in small.pair_or_not
    return paired or (field, at) in told[0] or names_set(scene, word)


def _of_goods(scene: Scene, field: int, tokens: list[str], to: int) -> bool:
    """Is it not a pair of other things: "a pair of plugs"?"""
    if to >= len(tokens) or tokens[to] not in scene.small.pair_of_more:
        return True
    return any(scene.stands(what, field, to + step) for what in ("panel_many", "inverter_many", "piece")
               for step in range(1, _TO_GOODS))  # fmt: skip
