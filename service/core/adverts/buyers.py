"""Does a buyer ask who sells, and tell what he pays: "Who has a panel for sale? I pay up to 50"?"""

from collections.abc import Iterator
from itertools import takewhile

from service.core.adverts.asked_for import QUESTION_ENDS
from service.core.adverts.asked_roles import QUESTION
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, Item

_SELLING = ("selling", "sells")
_GOODS = ("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many")
_MOST_QUESTIONS, _MOST_BEFORE = 6, 30  # pieces
_FIRST_WORDS, _TO_AMOUNT, _ANSWER = 4, 5, 8
_Span = tuple[int, int, int]  # field, first piece, its question mark


def is_buyers_question(scene: Scene) -> bool:
    """Is it asked who sells, or said that the writer looks for such goods too, while nothing is sold besides?"""
    if not scene.roles & QUESTION or scene.price:
        return False
    questions = list(_questions(scene))
    amounts = [scene.items[at] for unit in scene.units.keys() & MONEY_UNITS for at in scene.units[unit]]
    bids = all(is_bid(scene, item) for item in amounts)
    if any(_me_too(scene, span) and (_seeks(scene, span) or (amounts and bids)) for span in questions):
        return not any(_sold_outside(scene, ()))
    paid = bids and any(_right_behind_pay(scene, item) for item in amounts)
    asked = [span for span in questions if _asks_who_sells(scene, span) or (paid and _asks_who_has(scene, span))]
    return bids and bool(asked) and not any(_sold_outside(scene, asked))


def _questions(scene: Scene) -> Iterator[_Span]:
    """Questions of title and text, the first ones."""
    for field in (0, 1):
        tokens, at = scene.tokens[field], 0
        for _ in range(_MOST_QUESTIONS if scene.field_roles[field] & QUESTION else 0):
            try:
                end = tokens.index("?", at)
            except ValueError:
                break
            start = end
            while start > max(at, end - _MOST_BEFORE) and tokens[start - 1] not in QUESTION_ENDS:
                start -= 1
            yield field, start, end
            at = end + 1


def _asks_who_sells(scene: Scene, span: _Span) -> bool:
    field, start, _ = span
    if scene.small.asks_who.isdisjoint(scene.tokens[field][start : start + _FIRST_WORDS]):
        return False
    return not _tells(scene, span, ("wanted_not",)) and _tells(scene, span, _SELLING)


def _asks_who_has(scene: Scene, span: _Span) -> bool:
    """Is it asked of anybody, of goods or so many: "who parts with a panel", as far as what is paid behind it tells?"""
    field, start, _ = span
    if scene.small.asks_who.isdisjoint(scene.tokens[field][start : start + _FIRST_WORDS]):
        return False
    if _tells(scene, span, ("wanted_not",)):
        return False
    return _tells(scene, span, _GOODS) or any(_stands_in(scene.items[at], (span,)) for at in scene.units.get("", ()))


def _right_behind_pay(scene: Scene, item: Item) -> bool:
    """Does an amount stand behind a word for paying with nothing but its sign between: "I give £45", "giver 200 kr"?

    Or one light word: "je donne volontiers 40 euros".
    """
    before = [word for word in scene.tokens[item.field][max(item.at - 3, 0) : item.at] if word.isalnum()]
    if before and before[-1] in scene.small.before_bid:
        before.pop()
    return bool(before) and before[-1] in scene.small.i_pay


def _seeks(scene: Scene, span: _Span) -> bool:
    return _tells(scene, span, ("wanted", "needed"))


def _tells(scene: Scene, span: _Span, whats: tuple[str, ...]) -> bool:
    """Does one of these meanings stand in a question?"""
    return any(_stands_in(scene.items[at], (span,)) for what in whats for at in scene.by_what.get(what, []))


def _stands_in(item: Item, spans: tuple[_Span, ...] | list[_Span]) -> bool:
    return any(item.field == field and start <= item.at < end for field, start, end in spans)


def _sold_outside(scene: Scene, spans: tuple[_Span, ...] | list[_Span]) -> Iterator[bool]:
    """For each word for selling: does it stand outside of these questions, and is it no bid?"""
    for at in scene.by_what.get("selling", []):
        item = scene.items[at]
        offers = scene.tokens[item.field][item.at] in scene.small.i_pay
        yield not (offers or _stands_in(item, spans))


def is_bid(scene: Scene, item: Item) -> bool:
    """Does a word for paying stand close before an amount?"""
    before = scene.tokens[item.field][max(item.at - _TO_AMOUNT, 0) : item.at]
    return any(
        word in scene.small.i_pay for word in takewhile(lambda word: word not in QUESTION_ENDS, reversed(before))
    )


def _me_too(scene: Scene, span: _Span) -> bool:
    """Is a question answered with "so am I"?"""
    field, _, end = span
    small = scene.small
    behind = scene.tokens[field][end + 1 : end + 1 + _ANSWER]
    answer = list(takewhile(lambda word: word not in QUESTION_ENDS and word not in ",:", behind))
    if len(answer) == len(behind) and len(behind) == _ANSWER:
        return False
    words = {word for word in answer if word != "'"}
    return bool(words & small.too) and bool(words & small.of_myself) and words <= small.too | small.of_myself
