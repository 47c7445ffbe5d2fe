"""For how many of several pieces is a price: "8 panels, 90 the pair", "20 modules, je 2 Stück 90", "£180 per four"?

Or of a set that tells how many it holds, and of a number that is said to cost so much: "le lot de quatre 160 €".
"""

from service.core.adverts.bundles import names_set
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_PAIR, _BETWEEN, _TO_PAIR = 2, 2, 3
_TO_SET, _LEAST_OF_PAIRS = 5, 3  # where there are two, a pair is all of them
_SIGNS = frozenset("€£$:=(,")
_ENDS = frozenset(".,;!?()\n|")
_PIECES = ("piece", "panel_", "inverter_", "each", "for", "lot")


def pieces_of_price(scene: Scene, chosen: Item, quantity: int) -> int | None:
    """The pieces that an amount buys, where a word for a pair or a number beside it tells fewer than there are."""
    tokens, small = scene.tokens[chosen.field], scene.small
    near = tokens[max(chosen.at - _TO_PAIR, 0) : chosen.to + _TO_PAIR + 1]
    paired = quantity >= _LEAST_OF_PAIRS and not (small.pair.isdisjoint(near) and small.pair_or_not.isdisjoint(near))
    if paired and (_pair_behind(scene, tokens, chosen.to) or _pair_before(scene, tokens, chosen.at)):
        return _PAIR
    if chosen.field > 1:
        return None
    place = next((at for at in scene.units.get(chosen.unit, []) if scene.items[at] is chosen), 0)
    if NUMBER not in scene.near(place, 5, -1) and NUMBER not in scene.near(place, -1, 4):
        return None
    found = _number_behind(scene, place) or _number_before(scene, place, tokens)
    if found and found < quantity:
        return found if quantity >= _LEAST_OF_PAIRS else None
    found = None if found else _number_that_costs(scene, place, tokens) or _set_behind(scene, place, tokens)
    return found if found and found <= quantity else None


def _pair_behind(scene: Scene, tokens: list[str], at: int) -> bool:
    """As in "90 the pair", "90 € la paire", "90 kr. parret"."""
    small, start = scene.small, at + (tokens[at : at + 1] == ["."])  # the point of "kr."
    for end in range(start, min(start + _TO_PAIR, len(tokens))):
        word, behind = tokens[end], tokens[end + 1] if end + 1 < len(tokens) else "."
        if word in small.pair:
            return behind not in small.pair_of_more
        if word in small.pair_or_not and end > start:
            return behind in _ENDS or behind in small.joining or behind in small.alternative
        if word not in small.beside_pair:
            return False
    return False


def _pair_before(scene: Scene, tokens: list[str], at: int) -> bool:
    """As in "im Doppelpack 90 €", "la paire : 90 €", "das Paar für 90 €"."""
    small, end = scene.small, at
    while end > max(at - _TO_PAIR, 0) and (
        tokens[end - 1] in _SIGNS or tokens[end - 1] in small.paid_for or tokens[end - 1] in small.costing
    ):
        end -= 1
    if not end or tokens[end - 1 : at].count(","):
        return False
    word, before = tokens[end - 1], tokens[end - 2] if end > 1 else "."
    counted = before[:1].isdigit()  # "two pairs for 90"
    return not counted and (word in small.pair or (word in small.pair_or_not and before in small.beside_pair))


def _number_behind(scene: Scene, place: int) -> int | None:
    """As in "90 € les deux", "£180 per four", "40 € je 2 Module"."""
    item = scene.items[place]
    for one in scene.ahead(place, 4):
        if one.what == "each" and one.to - one.at > 1:
            return None  # "30 € cada um"
        if one.what != NUMBER:
            continue
        return number_of_pieces(scene, item, one)
    return None


def number_of_pieces(scene: Scene, item: Item, one: Item) -> int | None:
    """The number behind an amount, where nothing but "the", "for" or "per" stands between: "160 € les 8"."""
    tokens = scene.tokens[item.field]
    between = tokens[item.to : one.at]
    if len(between) > 1 and scene.stands("each", item.field, item.to):
        return None  # "30 € cada um 20 peças"
    told = (one.spelled or bool(between)) and scene.small.beside_pair.issuperset(between)
    return some_pieces(scene, one, tokens) if told and len(between) <= _BETWEEN and one.clause == item.clause else None


def number_of_all(scene: Scene, item: Item, one: Item) -> int | None:
    """The same where no word for "each" stands between: all of them, or some of them in one go."""
    return None if scene.stands("each", item.field, item.to) else number_of_pieces(scene, item, one)


def _number_before(scene: Scene, place: int, tokens: list[str]) -> int | None:
    """As in "je 2 Stück 90 €", "per 4 stuks 180 euro"."""
    item = scene.items[place]
    for one in scene.back(place, 5):
        if one.what == NUMBER:
            near = [
                word for word in tokens[one.to : item.at] if word not in _SIGNS and word not in scene.small.paid_for
            ]
            per = one.at > 0 and tokens[one.at - 1] in scene.small.per_so_many
            per = per or (one.spelled and scene.stands("lot", one.field, one.at))  # "les deux pour 80 €"
            of_pieces = not near or (len(near) == 1 and _pieces_behind(scene, one))
            return int(one.value) if per and of_pieces and one.clause == item.clause and _is_count(one) else None
        if not one.what.startswith(_PIECES):
            return None
    return None


def _number_that_costs(scene: Scene, place: int, tokens: list[str]) -> int | None:
    """As in "vier Stück kosten 160 €", "le lot de quatre 160 €"."""
    small, item = scene.small, scene.items[place]
    one = next((one for one in scene.back(place, 6) if one.what == NUMBER), None)
    if one is None or one.clause != item.clause or not _is_count(one) or _each_behind(scene, item):
        return None
    near = [word for word in tokens[one.to : item.at] if word not in _SIGNS and word not in small.paid_for]
    costs = any(word in small.costing or word in small.all_of_them for word in near)
    goods = [word for word in near if word not in small.costing and word not in small.all_of_them and word != "."]
    if len(goods) > 1 or (goods and not _pieces_behind(scene, one)):
        return None
    before = tokens[max(one.at - _TO_PAIR, 0) : one.at]
    if costs and (goods or one.spelled):
        return None if before and (before[-1] in small.joining or before[-1] == "+") else int(one.value)
    return int(one.value) if _ends_with_set(scene, before) else None


def _set_behind(scene: Scene, place: int, tokens: list[str]) -> int | None:
    """As in "160 € le lot de quatre", "160 euro per set van vier"."""
    item = scene.items[place]
    one = next((one for one in scene.ahead(place, 6) if one.what == NUMBER), None)
    if one is None or one.clause != item.clause or not 1 < one.at - item.to <= _TO_SET:
        return None
    between = tokens[item.to : one.at]
    joined = between[-1] in scene.small.sets_by
    words = between[: -1 - joined]
    small = scene.small
    told = all(word == "." or word in small.beside_pair or word in small.by_set or word in small.anybody
               for word in words)  # fmt: skip
    return some_pieces(scene, one, tokens) if told and _ends_with_set(scene, between) else None


def _ends_with_set(scene: Scene, words: list[str]) -> bool:
    """Does a word for a set end a row, with at most a word such as "of" behind it and no number before it?"""
    words = words[:-1] if words and words[-1] in scene.small.sets_by else words
    return bool(words) and names_set(scene, words[-1]) and not (len(words) > 1 and words[-2][0].isdigit())


def _each_behind(scene: Scene, item: Item) -> bool:
    tokens = scene.tokens[item.field]
    return scene.stands("each", item.field, item.to + (tokens[item.to : item.to + 1] == ["."]))


def some_pieces(scene: Scene, one: Item, tokens: list[str]) -> int | None:
    """A number of pieces, with nothing else counted by it."""
    behind = tokens[one.to] if one.to < len(tokens) else "."
    ended = behind in _ENDS or behind in scene.small.alternative or _pieces_behind(scene, one)
    return int(one.value) if ended and _is_count(one) else None


def _is_count(one: Item) -> bool:
    return not (one.unit or one.value < _PAIR or one.value % 1 or one.glued in {"-", "/", "x"})


def _pieces_behind(scene: Scene, one: Item) -> bool:
    return any(scene.stands(what, one.field, one.to) for what in ("piece", "panel_many", "inverter_many"))
