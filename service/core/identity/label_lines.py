"""What does a whole line of a label say of its figures: at which conditions they hold, or that they are of several?

"Pmax 323 W, Voc 37.1 V, Isc 11.4 A at NMOT" says of three figures at what they were measured.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace

from service.core.identity.label_claim import ELECTRIC, NOT_AT_STC, Claim
from service.core.identity.label_tokens import Token, number_of
from service.core.identity.label_words import COUNTS, ELSEWHERE, OF_SEVERAL, OF_SEVERAL_COUNTED, STANDARD

_CLOSING = frozenset({")", "]", ".", ";", ",", "|", "conditions", "condition", "bedingungen", "cond"})
_IRRADIANCE = ("w", "/", "m")
_AFTER_IRRADIANCE = 14  # "800 W/m2, 20 C, 1 m/s": what else may stand behind it
_WORDS_NEAR, _WORDS_BEHIND = 6, 3
_MOST_COUNTED = 40.0


def with_trailing_conditions(claims: Sequence[Claim], tokens: Sequence[Token]) -> tuple[Claim, ...]:
    """The claims, those doubted that stand on a line that ends with a condition other than the standard one.

    A line that names the standard conditions too is left as it was read. Time is linear in the tokens.
    """
    elsewhere = _lines_elsewhere(tokens)
    starts = [token.start for token in tokens]
    lines, line = [], 0
    for token in tokens:
        lines.append(line)
        line += token.text == "\n"

    def doubted(claim: Claim) -> bool:
        return claim.what in ELECTRIC and lines[max(bisect_left(starts, claim.end) - 1, 0)] in elsewhere

    return tuple(replace(claim, doubt=claim.doubt or NOT_AT_STC) if doubted(claim) else claim for claim in claims)


def _lines_elsewhere(tokens: Sequence[Token]) -> frozenset[int]:
    """The lines that end with a condition and name no standard one."""
    found, line, begin = set(), 0, 0
    for at in range(len(tokens) + 1):
        if at == len(tokens) or tokens[at].text == "\n":
            words = [token.text for token in tokens[begin:at]]
            if not STANDARD.intersection(words) and _ends_elsewhere(words):
                found.add(line)
            line, begin = line + 1, at + 1
    return frozenset(found)


def _ends_elsewhere(words: list[str]) -> bool:
    end = len(words)
    while end and words[end - 1] in _CLOSING:
        end -= 1
    if end and words[end - 1] in ELSEWHERE:
        return True
    for at in range(max(end - _AFTER_IRRADIANCE - len(_IRRADIANCE), 1), end):
        if tuple(words[at : at + 3]) == _IRRADIANCE and words[at - 1][0].isdigit():
            return number_of(words[at - 1]) != 1000
    return False


def of_several(tokens: Sequence[Token], first: int, behind: int) -> bool:
    """Do words near a figure, on its line, speak of several panels together: "set of 2, 860 W", "2 panels, 860 W"?

    Two figures with a sign between them are one panel's: "2 x 430 W". So are "solar panels 430 W", without a number.
    """
    if first >= 1 and tokens[first - 1].text in {"x", "*", "je", "each", "a"}:
        return False
    if _made_up_behind(tokens, behind):
        return True
    for places in (range(first - 1, max(first - 1 - _WORDS_NEAR, -1), -1), range(behind, behind + _WORDS_BEHIND)):
        for place in places:
            if place >= len(tokens) or tokens[place].text == "\n":
                break
            if tokens[place].text in OF_SEVERAL or _counted(tokens, place, first):
                return True
    return False


def _made_up_behind(tokens: Sequence[Token], behind: int) -> bool:
    """Does "(2 x 430 W)" stand behind the figure?"""
    texts = [token.text for token in tokens[behind : behind + 5]]
    return any(
        one in {"x", "*"} and before[0].isdigit() and after[0].isdigit()
        for before, one, after in zip(texts, texts[1:], texts[2:], strict=False)
    )


def _counted(tokens: Sequence[Token], place: int, figure: int) -> bool:
    """Is it a word such as "panels" with how many just before it?"""
    if tokens[place].text not in OF_SEVERAL_COUNTED:
        return False
    before = [tokens[at].text for at in (place - 1, place - 2) if at >= 0 and at != figure]
    return any(text in COUNTS or (text[0].isdigit() and 2 <= number_of(text) <= _MOST_COUNTED) for text in before)
