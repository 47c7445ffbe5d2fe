"""Which figures are told of panels that are not sold: what these are set beside, what they replace, what one has now?

As in "nearly as strong as a 440 W one", "replaces the 250 W ones", "my new ones have 440 W, these are smaller".
"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.asked_roles import COMPARING, CONTRASTING, THEIRS
from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import NUMBER, Item

_UNITS = frozenset(("W", "V", "A"))
_BEFORE, _FROM_THAN, _BEHIND = 9, 6, 14  # pieces
_PARTS = frozenset(".,;:!?()\n")
_ENDS = frozenset(".;!?\n")


def may_tell_of_others(roles: int) -> bool:
    """May a text tell of such panels, as far as its words tell?"""
    return bool(roles & COMPARING) or bool(roles & THEIRS and roles & CONTRASTING)


def without_other_panels(
    items: Sequence[Item], fields: Sequence[Sequence[str]], small: SmallWords, roles: int
) -> list[Item]:
    """Items without such figures, and without the number of those panels.

    Args:
        items: of title and body, in order.
        fields: the pieces of title and body.
        small: the small words of all languages.
        roles: those of the words of both, as bits.
    """
    gone: set[int] = set()
    compared, theirs = bool(roles & COMPARING), bool(roles & THEIRS and roles & CONTRASTING)
    for place, item in enumerate(items):
        if item.unit not in _UNITS:
            continue
        tokens = fields[item.field]
        before = _of_the_part(tokens[max(item.at - _BEFORE, 0) : item.at])
        if (compared and (_compared(before, small) or not small.replacing.isdisjoint(before))) or (
            theirs and _had(items, place, before, tokens, small)
        ):
            gone.add(place)
            counted = items[place - 1] if place else item
            if counted.what == NUMBER and not counted.unit and tokens[counted.to : item.at] in (["x"], []):
                gone.add(place - 1)
    return [item for place, item in enumerate(items) if place not in gone] if gone else list(items)


def _of_the_part(before: Sequence[str]) -> Sequence[str]:
    """What stands behind the last sign that parts a sentence, or the last figure."""
    at = len(before)
    while at and before[at - 1] not in _PARTS and not (before[at - 1][:1].isdigit() and before[at : at + 1] != ["x"]):
        at -= 1
    return before[at:]


def _compared(before: Sequence[str], small: SmallWords) -> bool:
    """As in "stronger than", "as strong as a", "comparable to"?"""
    for at, word in enumerate(before):
        behind = before[at + 1 :]
        if word in small.comparable:
            return not small.comparable_to.isdisjoint(behind[-_FROM_THAN:])
        if word in small.comparing:
            near = behind[-_FROM_THAN:]
            if not small.comparing_than.isdisjoint(near):
                return True
            more = not small.comparing_more.isdisjoint(before[: at + 1])
            if any(than in small.comparing_of and (more or one in small.one_of_them)
                   for than, one in pairwise((*near, ""))):  # fmt: skip
                return True
        if word in small.comparing_good:
            than = next((one for one, told in enumerate(behind)
                         if told in small.comparing_than or told in small.comparing_of), None)  # fmt: skip
            if than is not None and not small.one_of_them.isdisjoint(behind[than + 1 : than + 2]):
                return True
    return False


def _had(items: Sequence[Item], place: int, before: Sequence[str], tokens: Sequence[str], small: SmallWords) -> bool:
    """Is it what others have, or the seller by now, and are the panels on offer set against it: "these are smaller"?"""
    item = items[place]
    if not (_mine_by_now(before, small) or not small.strangers.isdisjoint(before)):
        return False
    if any(one.what == "selling" and one.sentence == item.sentence for one in items[max(place - 6, 0) : place]):
        return False
    behind = list(tokens[item.to : item.to + _BEHIND])
    end = next((at for at, word in enumerate(behind) if word in _ENDS), len(behind))
    return not small.these_ones.isdisjoint(behind[:end])


def _mine_by_now(before: Sequence[str], small: SmallWords) -> bool:
    """As in "my new ones have", "the new ones that I put up are", "we now have"?"""
    if not small.of_now.isdisjoint(before):
        return not small.we_have.isdisjoint(before)
    for at, word in enumerate(before):
        if word in small.new_ones:
            return not (
                small.of_mine.isdisjoint(before[:at]) and small.before_plural.isdisjoint(before[max(at - 1, 0) : at])
            )
    return False
