"""Which amounts are only a part of the price, stand on a bill, or are what a share of is asked?

As in "£50 deposit, balance £950", "invoice over 180 €", "£180 each new, asking a third of that". What is paid first and
what is paid later are the price together, where nobody tells another one.
"""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Set
from itertools import takewhile

from service.core.adverts.asked_roles import BILLS, DEPOSITS, PARTS
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_ENDS = frozenset(".,;!?\n|()")
_TO_DEPOSIT, _TO_BALANCE, _TO_BILL, _TO_NEW, _TO_FETCHING = 2, 3, 2, 3, 3
_NEW = frozenset(("new", "unused", "new_price"))
_CENTS_FROM = 1.0


def told_of_parts(scene: Scene, amounts: list[int]) -> set[int]:
    """Places among ``amounts`` that are no price."""
    found: set[int] = set()
    if scene.roles & DEPOSITS:
        found |= _deposit_and_balance(scene, amounts)
    if scene.roles & BILLS:
        found |= _on_bills(scene, amounts)
    if "share" in scene.by_what:
        found |= _shared(scene, amounts)
    return found


def _near_words(tokens: list[str]) -> Iterator[str]:
    return (word for word in takewhile(lambda word: word not in _ENDS, tokens) if word.isalnum())


def _before(scene: Scene, item: Item, most: int) -> list[str]:
    """Words before an amount in its part of a sentence, nearest first."""
    tokens = scene.tokens[item.field][max(item.at - 2 * most - 1, 0) : item.at]
    return list(_near_words(tokens[::-1]))[:most]


def _named(words: list[str], names: Set[str], joining: Set[str]) -> bool:
    """Is the next word such a name, or the one behind a joining word?"""
    if not words:
        return False
    return words[0] in names or (len(words) > 1 and words[0] in joining and words[1] in names)


def _behind(scene: Scene, item: Item, most: int) -> list[str]:
    return list(_near_words(scene.tokens[item.field][item.to : item.to + 2 * most]))[:most]


def _deposit_and_balance(scene: Scene, amounts: list[int]) -> set[int]:
    """What is paid first, and what is paid later, as far as words or the place of fetching tell."""
    found: set[int] = set()
    for place in amounts:
        item = scene.items[place]
        if item.value < _CENTS_FROM:
            continue
        if _is_deposit(scene, item):
            found.add(place)
    first: dict[int, int] = {}  # the first deposit of each sentence
    for place in sorted(found):
        first.setdefault(scene.items[place].sentence, place)
    for place in [at for at in amounts if at not in found] if found else []:
        item = scene.items[place]
        if _is_balance(scene, item) or _on_fetching(scene, place, item, first):
            found.add(place)
    return found


def _is_deposit(scene: Scene, item: Item) -> bool:
    small = scene.small
    behind, before = _behind(scene, item, _TO_DEPOSIT), _before(scene, item, _TO_DEPOSIT)
    return _named(behind, small.deposits, small.deposit_as) or _named(before, small.deposits, small.billed_over)


def _is_balance(scene: Scene, item: Item) -> bool:
    """As in "balance £950", "950 € Rest", "el resto (950 €)"."""
    balances, tokens = scene.small.balances, scene.tokens[item.field]
    if not balances.isdisjoint((*_before(scene, item, _TO_BALANCE), *_behind(scene, item, 1))):
        return True
    return item.at > 1 and tokens[item.at - 1] == "(" and tokens[item.at - 2] in balances


def paid_in_parts(scene: Scene) -> Item | None:
    """A deposit and what is paid later as one amount; None where not just one of each is told.

    Asked where no other amount is a price. Amounts need no currency here.
    """
    if not scene.roles & PARTS or not scene.roles & DEPOSITS:
        return None
    items = [scene.items[at] for at in numbers(scene)]
    amounts = [one for one in items if one.value >= _CENTS_FROM and (one.unit in MONEY_UNITS or not one.unit)]
    first = [one for one in amounts if _is_deposit(scene, one)]
    later = [one for one in amounts if one is not first[0] and _is_balance(scene, one)] if len(first) == 1 else []
    if len(later) != 1:
        return None
    paid, rest = first[0], later[0]
    if (paid.field, paid.sentence) != (rest.field, rest.sentence) or scene.in_sentence(rest.sentence, "each"):
        return None
    if (paid.unit and rest.unit and paid.unit != rest.unit) or not (rest.unit or _is_money(scene, rest)):
        return None
    whole = Item(NUMBER, min(paid.at, rest.at), max(paid.to, rest.to), rest.sentence, rest.clause, rest.field)
    whole.value, whole.unit = paid.value + rest.value, rest.unit or paid.unit
    return whole


def _is_money(scene: Scene, item: Item) -> bool:
    """Does nothing follow a bare figure in its part of the sentence, or only fetching: "rest 100 on collection"?"""
    if not _behind(scene, item, 1):
        return True
    return any(scene.stands("pickup", item.field, item.to + step) for step in range(_TO_FETCHING))


def _on_fetching(scene: Scene, place: int, item: Item, first: Mapping[int, int]) -> bool:
    """Does it stand behind a deposit in one sentence and before fetching: "£50 deposit, £450 on collection"?"""
    back = scene.back(place, 8)
    paid = first.get(item.sentence, place) < place
    priced = any(one.what in {"price", "each", "lot"} and one.clause == item.clause for one in back)
    ahead = scene.ahead(place, 2)
    fetched = any(one.what == "pickup" and one.clause == item.clause and one.at - item.to <= 2 for one in ahead)
    return paid and fetched and not priced


def _on_bills(scene: Scene, amounts: list[int]) -> set[int]:
    """Amounts that a bill is over; or directly behind its name, where a smaller amount is told elsewhere."""
    small = scene.small
    told = {at: (_before(scene, scene.items[at], _TO_BILL + 1), scene.items[at].value) for at in amounts}
    others = [place for place in amounts if not _of_sending(scene, place)]
    asked = [one.value for one in scene.price if one.what == NUMBER]
    positive = [value for value in (*(told[place][1] for place in others), *asked) if value > 0]
    least = min(positive, default=0.0)
    elsewhere, counted = len(others) + len(asked), frozenset(others)
    found: set[int] = set()
    for place, (before, value) in told.items():
        if small.bills.isdisjoint(before[:_TO_BILL]):
            continue
        at = next(at for at, word in enumerate(before) if word in small.bills)
        over = at == 1 and before[0] in small.billed_over
        beside = at == 0 and small.with_sending.isdisjoint(before[1:2])
        if (over and elsewhere > (place in counted)) or (beside and 0 < least < value):
            found.add(place)
    return found


def _of_sending(scene: Scene, place: int) -> bool:
    return "shipping" in scene.near(place, 2, 2)


def _shared(scene: Scene, amounts: list[int]) -> set[int]:
    """What they cost new, where a share of it is asked behind it; "new" beside it tells no condition."""
    shares = scene.by_what["share"]  # in order
    found: set[int] = set()
    told: set[int] = set()
    for place in amounts:
        item = scene.items[place]
        behind = bisect_right(shares, place)
        if behind == len(shares) or scene.items[shares[behind]].sentence != item.sentence:
            continue
        first = max(place - _TO_NEW, 0)
        new = [at for at in range(first, min(place + _TO_NEW, len(scene.items)))
               if scene.whats[at] in _NEW and scene.items[at].clause == item.clause]  # fmt: skip
        if new:
            found.add(place)
            told.update(new)
    if told:
        _no_condition(scene, told)
    return found


def _no_condition(scene: Scene, places: Set[int]) -> None:
    for what in ("new", "unused"):
        if what in scene.by_what:
            kept = [at for at in scene.by_what[what] if at not in places]
            if kept:
                scene.by_what[what] = kept
            else:
                del scene.by_what[what]
