"""Does a condition at the end of a line hold for all of the line's figures?

"Pmax 323 W, Voc 37.1 V, Isc 11.4 A at NMOT" says of three figures at what they were measured. In a bracket it is the
last figure's own.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace

from service.core.identity.label_claim import ELECTRIC, NOT_AT_STC, Claim
from service.core.identity.label_tokens import Token
from service.core.identity.label_words import ELSEWHERE, OF_SEVERAL, PREPOSITIONS, STANDARD

_BRACKETS = frozenset({"(", "[", ")", "]"})
_SAYING = PREPOSITIONS - _BRACKETS - {"="}
_CONDITION_TOKENS = 8
_WORDS_NEAR, _WORDS_BEHIND = 6, 3
_ENDS = ELSEWHERE | {"c", "m", "2", "m2", "conditions", "condition", "bedingungen"}


def with_trailing_conditions(claims: Sequence[Claim], tokens: Sequence[Token]) -> tuple[Claim, ...]:
    """The claims, those doubted that stand before a condition other than the standard one at the end of their line.

    A line that names the standard conditions too is left as it was read. Time is linear in the tokens.
    """
    lines: dict[int, list[int]] = {}
    starts = [token.start for token in tokens]
    number_of_line, line = [], 0
    for token in tokens:
        number_of_line.append(line)
        line += token.text == "\n"
    named_standard = {number_of_line[at] for at, token in enumerate(tokens) if token.text in STANDARD}
    for place, claim in enumerate(claims):
        if claim.what in ELECTRIC:
            lines.setdefault(number_of_line[_last_token(claim, starts)], []).append(place)
    doubted = {
        place
        for line, places in lines.items()
        if line not in named_standard and _told_of_all(claims[places[-1]], tokens, starts)
        for place in places
    }
    return tuple(
        replace(claim, doubt=claim.doubt or NOT_AT_STC) if place in doubted else claim
        for place, claim in enumerate(claims)
    )


def of_several(tokens: Sequence[Token], first: int, behind: int) -> bool:
    """Do words near a figure, on its line, speak of several panels together: "set of 2, 860 W"?

    Two figures with a sign between them are one panel's: "2 x 430 W".
    """
    if first >= 1 and tokens[first - 1].text in {"x", "*", "je", "each", "a"}:
        return False
    near = []
    for places in (range(first - 1, max(first - 1 - _WORDS_NEAR, -1), -1), range(behind, behind + _WORDS_BEHIND)):
        for place in places:
            if place >= len(tokens) or tokens[place].text == "\n":
                break
            near.append(tokens[place].text)
    return bool(OF_SEVERAL.intersection(near))


def _told_of_all(claim: Claim, tokens: Sequence[Token], starts: Sequence[int]) -> bool:
    """Does a line's last claim end with its condition, said by a word such as "at" and not in a bracket?"""
    last = _last_token(claim, starts)
    tail = {token.text for token in tokens[max(last - _CONDITION_TOKENS, 0) : last + 1] if token.start >= claim.start}
    ends = tokens[last].text in _ENDS
    return claim.doubt == NOT_AT_STC and ends and bool(tail & _SAYING) and not tail & _BRACKETS


def _last_token(claim: Claim, starts: Sequence[int]) -> int:
    return max(bisect_left(starts, claim.end) - 1, 0)
