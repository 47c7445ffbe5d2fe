"""Which power has only what the seller changes to: "upgraded to 430 W, so 8 old ones of 250 W are for sale"?"""

from collections.abc import Sequence, Set

from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_STOPS = frozenset(("selling", "giveaway", "price", "stock"))
_TAKING = frozenset(("for", "swap"))
_ENDS = frozenset(".,;:!?\n")
_FARTHEST, _FROM_TO, _OLD = 10, 5, "old_ones"


def without_replacements(items: list[Item], changes: list[int], words: Sequence[list[str]], to: Set[str]) -> list[Item]:
    """Items without the watts, and their number, of what the seller changes to; behind a number old ones are pieces.

    Args:
        items: of title and body, in order.
        changes: places of words for a change.
        words: the pieces of title and body.
        to: words that may stand before what is changed to.
    """
    gone: set[int] = set()
    for place in changes:
        at = _changed_to(items, place, words[items[place].field], to)
        if at:
            gone.add(at)
            low, high = sorted((place, at))
            gone.update(one for one in range(low, high) if items[one].what in _TAKING)  # "to 430 W panels": for nothing
            counted = items[at - 1]
            if counted.what == NUMBER and not counted.unit and items[at].at - counted.to <= 1:
                gone.add(at - 1)
    if not gone:
        return list(items)
    for at, old in enumerate(items):
        if old.what == _OLD and any(
            one.what == NUMBER and not one.unit and one.to == old.at and one.field == old.field
            for one in items[max(at - 3, 0) : at]
        ):
            old.what = "piece"
    return [item for at, item in enumerate(items) if at not in gone]


def _changed_to(items: list[Item], place: int, words: list[str], to: Set[str]) -> int:
    """Place of the first watts behind a change with "to" before them; else of those before it; 0: of none."""
    change = items[place]
    for at in range(place + 1, min(place + _FARTHEST, len(items))):
        one = items[at]
        if one.sentence != change.sentence or one.what in _STOPS or one.unit in MONEY_UNITS:
            break
        between = words[change.at : one.at]
        if len(between) > _FARTHEST or not _ENDS.isdisjoint(between):
            break
        if one.unit == "W" and not to.isdisjoint(between[-_FROM_TO:]):
            return at
    for at in range(place - 1, max(place - _FARTHEST, 0), -1):  # "auf 430 W Module umgerüstet"
        one = items[at]
        if one.sentence != change.sentence or change.at - one.to > _FROM_TO or one.what in _STOPS:
            break
        if not _ENDS.isdisjoint(words[one.to : change.at]):
            break
        if one.unit == "W":
            return at if not to.isdisjoint(words[max(one.at - _FROM_TO, 0) : one.at]) else 0
    return 0
