"""Does the writer tell what he would take, needs or pays, in whatever words: "I'd take two off your hands for £40"?

So many as he takes or needs stand beside such a word, without goods; whoever tells of a rest, of goods that he sells or
of a count in the title sells himself.
"""

from collections.abc import Iterator

from service.core.adverts.asked_for import QUESTION_ENDS
from service.core.adverts.asked_roles import I_PAY, LEFT_OF_COUNTED, TAKES
from service.core.adverts.bids import tells_bids_only
from service.core.adverts.buyers import is_bid, is_buyers_question
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item

_GOODS = PANELS | INVERTERS
_SELLS = ("selling", "giveaway", "sold", "gone", "swap")
_SELLING = ("selling", "sells")
_MOST, _MOST_AMOUNTS, _MOST_TITLED = 30, 12, 100
_LIGHT, _TO_MYSELF, _BEHIND_VERB, _TO_VERB = 4, 4, 2, 10  # pieces
_FIRST_WORDS, _IF_WITHIN = 4, 2
_MOST_BACK = 30
_BEHIND_COUNT = QUESTION_ENDS | frozenset(",:()-–")
_STOPS = QUESTION_ENDS | frozenset(",:")


def is_buyers(scene: Scene) -> bool:
    """Is it a buyer who writes, by what he asks, pays, takes or needs?"""
    if is_buyers_question(scene) or tells_bids_only(scene):
        return True
    if scene.price:
        return False
    if scene.roles & TAKES and _takes_some(scene):
        return True
    if "needed" in scene.by_what and _needs_some(scene):
        return True
    return bool(scene.roles & (I_PAY | TAKES)) and _pays_who_sells(scene)


def _amounts(scene: Scene) -> list[Item]:
    return [scene.items[at] for unit in scene.units.keys() & MONEY_UNITS for at in scene.units[unit]]


def _counts(scene: Scene) -> Iterator[Item]:
    """Figures of the text that may be so many pieces."""
    for place in scene.units.get("", ()):
        item = scene.items[place]
        if item.field == 1 and 0 < item.value <= _MOST and item.value % 1 == 0 and not item.glued:
            yield item


def _takes_some(scene: Scene) -> bool:
    """As in "I'd take two for £40", "ich würde zwei Stück abnehmen", with all amounts in that sentence?"""
    if scene.tells(*_SELLS) or not scene.small.the_rest.isdisjoint(scene.different(1)):
        return False
    told = [item for item in _counts(scene) if _is_taken(scene, item)]
    priced = {item.sentence for item in _amounts(scene)[:_MOST_AMOUNTS]}
    return any(priced <= {item.sentence} for item in told) and bool(priced)


def _is_taken(scene: Scene, item: Item) -> bool:
    small, tokens = scene.small, scene.tokens[item.field]
    at = _over(tokens, item.at - 1, small.beside_count)
    if at < 0 or not _stands_alone(scene, item):
        return False
    word = tokens[at]
    if word in small.taking:
        beside = [*_words_before(tokens, at, _TO_MYSELF), *tokens[at + 1 : at + 1 + _BEHIND_VERB]]
        return not small.myself.isdisjoint(beside)
    if word in small.i_take:
        return True
    beside = [*_words_before(tokens, at + 1, _TO_MYSELF), *tokens[at + 1 : item.at]]
    would = word in small.i_would or word in small.myself
    return would and not small.myself.isdisjoint(beside) and _verb_behind(scene, item)


def _verb_behind(scene: Scene, item: Item) -> bool:
    """As in "ich würde zwei Stück für je 40 Euro abnehmen"?"""
    for word in scene.tokens[item.field][item.to : item.to + _TO_VERB]:
        if word in scene.small.taking:
            return True
        if word in _STOPS:
            return False
    return False


def _over(tokens: list[str], at: int, light: frozenset[str]) -> int:
    """The first piece before a place that is no light word; not farther than a few."""
    first = at
    while at >= 0 and first - at < _LIGHT and tokens[at] in light:
        at -= 1
    return at


def _words_before(tokens: list[str], at: int, most: int) -> list[str]:
    """Up to so many pieces before a place, of the same sentence."""
    found: list[str] = []
    for word in tokens[max(at - most, 0) : at][::-1]:
        if word in QUESTION_ENDS:
            break
        found.append(word)
    return found


def _stands_alone(scene: Scene, item: Item) -> bool:
    """Does a count stand by itself or before goods, not before other things: "two for £40", "zwei Stück"?"""
    tokens, small = scene.tokens[item.field], scene.small
    to = item.to
    while (
        to < len(tokens) and to < item.to + _LIGHT and (tokens[to] in small.beside_count or tokens[to] in small.of_them)
    ):
        to += 1
    if to >= len(tokens) or tokens[to] in _BEHIND_COUNT:
        return True
    word = tokens[to]
    if word in small.of_place or word in small.bid_for or word in small.at_so_much or word in small.per:
        return True
    if scene.stands("for", item.field, to) or scene.stands("each", item.field, to) or word in small.taking:
        return True
    return scene.stands(NUMBER, item.field, to) or any(scene.stands(what, item.field, to) for what in _GOODS)


def _needs_some(scene: Scene) -> bool:
    """As in "need two for my shed", "two panels needed", at the beginning, while nothing is sold?"""
    if scene.tells(*_SELLS, "used", "unused", "new") or scene.roles & LEFT_OF_COUNTED:
        return False
    first = next((item.sentence for item in scene.items if item.field == 1), 0)
    amounts = _amounts(scene)[:_MOST_AMOUNTS]
    if any(item.sentence != first and not is_bid(scene, item) for item in amounts) or _counted_in_title(scene):
        return False
    for place in scene.by_what["needed"]:
        item = scene.items[place]
        if item.field != 1 or item.sentence != first or scene.denied(place):
            continue
        tokens = scene.tokens[1]
        if _needs_before(scene, item, tokens) or _needs_behind(scene, item, tokens):
            return True
    return False


def _needs_before(scene: Scene, item: Item, tokens: list[str]) -> bool:
    """A count behind the word: "need two for my shed", not "you need two"?"""
    small = scene.small
    own = item.at == 0 or not small.myself.isdisjoint(tokens[max(item.at - _LIGHT, 0) : item.to])
    if item.at > _FIRST_WORDS or not own:
        return False
    to = item.to
    while to < len(tokens) and to < item.to + _LIGHT and tokens[to] in small.beside_count:
        to += 1
    return any(one.at == to and _stands_alone(scene, one) for one in _counts(scene))


def _needs_behind(scene: Scene, item: Item, tokens: list[str]) -> bool:
    """A count before it: "heb er twee nodig", "two panels needed"?"""
    for one in _counts(scene):
        if one.at > _FIRST_WORDS or not one.to <= item.at <= one.to + 1:
            continue
        between = tokens[one.to : item.at]
        goods = not between or any(scene.stands(what, 1, one.to) for what in _GOODS)
        own = one.at == 0 or not scene.small.i_have.isdisjoint(tokens[: one.at])
        if goods and own and (item.to >= len(tokens) or tokens[item.to] in _BEHIND_COUNT or not between):
            return True
    return False


def _counted_in_title(scene: Scene) -> bool:
    """Does the title count its goods, as that of a seller does?"""
    titled = (scene.items[at] for at in scene.units.get("", ()))
    return any(not one.field and not one.glued and one.value <= _MOST_TITLED for one in titled)


def _pays_who_sells(scene: Scene) -> bool:
    """As in "if you have two to spare, I pay £40 each", while nothing is sold elsewhere?"""
    amounts = _amounts(scene)
    if not 0 < len(amounts) <= _MOST_AMOUNTS or not all(_is_paid(scene, item) for item in amounts):
        return False
    if not scene.small.the_rest.isdisjoint(scene.different(1)):
        return False
    parted = [item.at for item in _items_of(scene, _SELLING)]
    parted += [at for at, word in enumerate(scene.tokens[1]) if word in scene.small.to_spare]
    if not any(_of_reader(scene, at) for at in parted):
        return False
    tokens, pays = scene.tokens[1], scene.small.i_pay
    return all(_of_reader(scene, item.at) or tokens[item.at] in pays for item in _items_of(scene, ("selling",)))


def _items_of(scene: Scene, whats: tuple[str, ...]) -> Iterator[Item]:
    """Items of the text with one of these meanings."""
    for what in whats:
        for place in scene.by_what.get(what, ()):
            if scene.items[place].field == 1:
                yield scene.items[place]


def _of_reader(scene: Scene, at: int) -> bool:
    """Does the sentence of a piece begin with "if" or "who"?"""
    before = _words_before(scene.tokens[1], at, _MOST_BACK)
    return bool(before) and not scene.small.if_you.isdisjoint(before[-_IF_WITHIN:])


def _is_paid(scene: Scene, item: Item) -> bool:
    """Does a word for paying or taking stand before an amount in its sentence?"""
    if is_bid(scene, item):
        return True
    small = scene.small
    before = _words_before(scene.tokens[item.field], item.at, _TO_VERB)
    return any(word in small.i_take for word in before) or not (
        small.taking.isdisjoint(before) or small.myself.isdisjoint(before)
    )
