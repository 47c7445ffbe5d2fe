"""Is what stands here a figure, whole and legible, and under which conditions was it taken?

A figure is a number that nothing but a sign, a name or a unit touches. Where a letter that looks like a digit stands in
it (4O.9, l0.5: read by a machine from a photograph), it is told with a guess and never taken.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from service.core.identity.label_tokens import Token, number_of
from service.core.identity.label_units import Unit, unit_at
from service.core.identity.label_words import (
    COMPARING,
    ELSEWHERE,
    HEDGING,
    LIMITING,
    PREPOSITIONS,
    STANDARD,
    phrase_at,
)

SPLITTERS = frozenset("/|():;=[]<>≤≥~≈,&@_\n")
SEPARATORS = frozenset({",", ";", "/", "|", "&", "or", "oder", "ou", "o"})
RANGES = frozenset({"-", "~", "to", "bis", "a"})
_SIGNS = frozenset("+-±")
_CHUNK = 12  # tokens: no figure is longer
_LETTERS = frozenset("oqilsbzg")
_LOOKALIKE = str.maketrans("oqilsbzg", "00115829")
_BLURRED = re.compile(r"([\doqilsbzg]{1,9}(?:[.,][\doqilsbzg]{1,6})?)(vdc|volts?|v|adc|amps?|a|wp|watts?|w)?[.,]?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A number with its unit, in tokens ``first`` up to ``behind``; ``own``: stc, elsewhere, or empty; its doubt."""

    value: float
    unit: Unit
    first: int
    behind: int
    own: str = ""
    doubt: str = ""


def figure_at(tokens: Sequence[Token], at: int) -> Figure | None:
    """The figure whose number stands at a token; None where the number is a piece of a code or a word."""
    begin, end = _chunk(tokens, at)
    if not _touched(tokens, begin, at):
        unit = unit_at(tokens, at + 1)
        behind = at + 1 + unit.length
        if _split_by_space(tokens, at):
            guess = float(f"{tokens[at].text}.{tokens[at + 2].text}")
            return Figure(value=guess, unit=unit_at(tokens, at + 3), first=at, behind=at + 3, doubt="illegible_figure")
        if (
            unit.length
            or at + 1 >= end
            or (tokens[at + 1].text in _CLOSING and not _point_beside_letters(tokens, at + 1))
            or phrase_at(tokens, at + 1)[0]
        ):
            following = tokens[at + 1].text if unit.length else ""
            value = number_of(tokens[at].text, following) * unit.factor
            negative = at > 0 and tokens[at - 1].text == "-"
            return Figure(value=-value if negative else value, unit=unit, first=at, behind=behind)
    return _blurred(tokens, begin, end)


_CLOSING = frozenset({".", "-", "+", "±", "°", "x", "*", "%", "'", '"'})


def chunk_end(tokens: Sequence[Token], at: int) -> int:
    """Behind the run of tokens without a space that a token belongs to."""
    return _chunk(tokens, at)[1]


def _chunk(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    begin, end = at, at + 1
    while begin > 0 and at - begin < _CHUNK and _glued(tokens, begin) and not _splits(tokens, begin - 1):
        begin -= 1
    while end < len(tokens) and end - at < _CHUNK and _glued(tokens, end) and not _splits(tokens, end):
        end += 1
    return begin, end


def _splits(tokens: Sequence[Token], at: int) -> bool:
    """A comma splits as well, save beside a letter that may be a digit, as in 40,g."""
    return tokens[at].text in SPLITTERS and not _point_beside_letters(tokens, at)


def _point_beside_letters(tokens: Sequence[Token], at: int) -> bool:
    if tokens[at].text not in {".", ","} or at == 0 or at + 1 >= len(tokens):
        return False
    if not (_glued(tokens, at) and _glued(tokens, at + 1)):
        return False
    before, after = tokens[at - 1].text, tokens[at + 1].text
    return (after[0].isdigit() and set(before) <= _LETTERS) or (before[0].isdigit() and set(after) <= _LETTERS)


def _glued(tokens: Sequence[Token], at: int) -> bool:
    return tokens[at - 1].end == tokens[at].start


def _touched(tokens: Sequence[Token], begin: int, at: int) -> bool:
    """Does something stand directly before the number that is neither a sign nor a name, such as the XX- of a code?"""
    while begin < at and tokens[at - 1].text in _SIGNS:
        at -= 1
    if begin == at or (at - begin == 1 and tokens[begin].text in _BEFORE):
        return False
    return phrase_at(tokens, begin)[1] != at - begin


_BEFORE = STANDARD | ELSEWHERE | {"dc", "ca", "x", "*", "."}


def _split_by_space(tokens: Sequence[Token], at: int) -> bool:
    """40. 9 V: a point at the number, then a blank, then digits."""
    if at + 2 >= len(tokens) or tokens[at + 1].text != "." or not _glued(tokens, at + 1):
        return False
    return tokens[at + 2].text.isdigit() and tokens[at].text.isdigit() and bool(unit_at(tokens, at + 3).length)


def _blurred(tokens: Sequence[Token], begin: int, end: int) -> Figure | None:
    text = "".join(token.text for token in tokens[begin:end])
    found = _BLURRED.fullmatch(text)
    if found is None or not any(c.isdigit() for c in found[1]) or not any(c.isalpha() for c in found[1]):
        return None
    unit = unit_at(tokens, end) if found[2] is None else _UNITS[found[2][0]]
    guess = number_of(found[1].translate(_LOOKALIKE))
    behind = end + (unit.length if found[2] is None else 0)
    return Figure(value=guess * unit.factor, unit=unit, first=begin, behind=behind, doubt="illegible_figure")


_UNITS = {"v": Unit("V", 1.0, 0), "a": Unit("A", 1.0, 0), "w": Unit("W", 1.0, 0)}


def own_condition(tokens: Sequence[Token], at: int) -> tuple[str, int]:
    """The condition behind a figure, as in "34.9 V (NOCT)": stc, elsewhere or empty; and where it ends.

    One that a comma or stroke parts from the figure, and that a figure or colon follows, belongs to what comes.
    """
    place, bracket, told = at, False, False
    parted = place < len(tokens) and tokens[place].text in SEPARATORS
    place += parted
    found = ""
    for _ in range(4):
        while place < len(tokens) and tokens[place].text in PREPOSITIONS:
            bracket, told = bracket or tokens[place].text in {"(", "["}, True
            place += 1
        kind, behind = _condition(tokens, place, sure=bracket or told)
        if not kind or (parted and not bracket and _goes_on(tokens, behind)):
            break
        found = "elsewhere" if "elsewhere" in {kind, found} else kind if kind != "any" else found
        place, at = behind, behind
        if place < len(tokens) and tokens[place].text in {",", "/", ";"} and bracket:
            place += 1
    if found and at < len(tokens) and tokens[at].text in {")", "]"}:
        at += 1
    return found, at


def _condition(tokens: Sequence[Token], at: int, *, sure: bool) -> tuple[str, int]:
    """Kind of condition at a token (stc, elsewhere, any; empty: none) and where it ends; ``sure``: behind a bracket."""
    if at >= len(tokens):
        return "", at
    text = tokens[at].text
    if text in STANDARD:
        return "stc", at + 1
    if text in ELSEWHERE:
        headed = at + 1 < len(tokens) and tokens[at + 1].text == ":"
        return ("", at) if not sure and (headed or nominal_follows(tokens, at)) else ("elsewhere", at + 1)
    return _measured_condition(tokens, at, sure=sure)


def _measured_condition(tokens: Sequence[Token], at: int, *, sure: bool) -> tuple[str, int]:
    """The same of a temperature or an irradiance."""
    text = tokens[at].text
    sign = at + 1 if text in _SIGNS else at
    if sign >= len(tokens) or not tokens[sign].is_number:
        return "", at
    unit, value = unit_at(tokens, sign + 1), number_of(tokens[sign].text)
    behind = sign + 1 + unit.length
    if unit.quantity == "W/m2":
        return ("any" if value == 1000 else "elsewhere"), behind
    ranged = behind < len(tokens) and tokens[behind].text in RANGES
    if unit.quantity != "C" or (ranged and not sure):
        return "", at
    return ("any" if value == 25 and text != "-" else "elsewhere"), behind


def _goes_on(tokens: Sequence[Token], at: int) -> bool:
    while at < len(tokens) and tokens[at].text in {")", "(", "[", "]"}:
        at += 1
    return at < len(tokens) and tokens[at].text not in {"\n", ",", ";", "."}


def nominal_follows(tokens: Sequence[Token], at: int) -> bool:
    """Is it "NOCT 45 C", the panel's own temperature, and not the condition of a figure?"""
    for place in range(at + 1, min(at + 8, len(tokens))):
        if tokens[place].text == "\n":
            return False
        if tokens[place].is_number and 30 <= number_of(tokens[place].text) <= 60:  # 45 C, 45 +/- 2 C
            return any(unit_at(tokens, near).quantity == "C" for near in range(place + 1, place + 6))
    return False


def said_behind(tokens: Sequence[Token], at: int) -> str:
    """What the word behind a figure makes of it: a limit ("60 V max"), no rating ("36 V measured"), or nothing."""
    while at < len(tokens) and tokens[at].text in {"(", "[", "-"}:
        at += 1
    if at >= len(tokens):
        return ""
    text = tokens[at].text
    if text in HEDGING or text in COMPARING:
        return "not_a_rating"
    end = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].text == ".")
    if text in LIMITING and (end >= len(tokens) or tokens[end].text in {")", "]", "\n", ",", ";", "/", "|"}):
        return "limit_not_rating"
    return ""
