"""Size, cells, code and tolerance: what on a label is written in a form of its own?

Each takes the tokens and a place and gives what it found and where that ends, or None.
"""

from collections.abc import Sequence

from service.core.identity.label_tokens import Token, number_of
from service.core.identity.label_units import unit_at
from service.core.identity.label_words import CELLS, phrase_at

_LONGEST_CODE = 40
_MOST_CODES = 12
_BEFORE_CODES = frozenset({":", ".", "=", "/", "-", "#", "("})


def size_at(tokens: Sequence[Token], at: int, *, named: bool) -> tuple[tuple[float, float] | None, int] | None:
    """1640 x 992 x 35 mm: length and width, mm; None in their place for a cell or a frame's section."""
    places, place = [at], at + 1
    while len(places) < 3:
        place += unit_at(tokens, place).length if unit_at(tokens, place).quantity == "mm" else 0
        if place + 1 >= len(tokens) or tokens[place].text not in {"x", "*"} or not tokens[place + 1].is_number:
            break
        places.append(place + 1)
        place += 2
    unit = unit_at(tokens, places[-1] + 1)
    if len(places) < 2 or not (unit.quantity == "mm" or (named and not unit.quantity)):
        return None
    written = tokens[places[-1] + 1].text if unit.quantity else "mm"
    values = sorted((number_of(tokens[p].text, written) * unit.factor for p in places), reverse=True)
    if values[1] < 200:
        return None, places[-1] + 1
    return (values[0], values[1]), places[-1] + 1 + unit.length


def cells_at(tokens: Sequence[Token], at: int, *, named: bool) -> tuple[float, int] | None:
    """60 cells, 6 x 10 cells, and 144 where the name stands before it."""
    count, place = number_of(tokens[at].text), at + 1
    if place + 1 < len(tokens) and tokens[place].text == "x" and tokens[place + 1].is_number:
        count, place = count * number_of(tokens[place + 1].text), place + 2
    behind = place
    if place < len(tokens) and tokens[place].text in {"-", "half", "mono", "poly", "solar"}:
        behind = place + 1
    what, length = phrase_at(tokens, behind)
    if count != int(count) or not 10 <= count <= 300 or not (what == CELLS or named):
        return None
    if unit_at(tokens, place).quantity:
        return None
    return count, behind + length if what == CELLS else place


def codes_at(text: str, tokens: Sequence[Token], at: int) -> tuple[list[tuple[str, int, int]], int]:
    """The runs of signs without a space behind "model" that have a digit and a letter in them, and where they end."""
    place = at
    while place < len(tokens) and tokens[place].text in _BEFORE_CODES:
        place += 1
    found: list[tuple[str, int, int]] = []
    while place < len(tokens) and tokens[place].text != "\n" and len(found) < _MOST_CODES:
        start = tokens[place].start
        run = text[start : start + _LONGEST_CODE].split(maxsplit=1)[0]
        code = run.strip(",;:()[]|/")
        behind = place + 1
        while behind < len(tokens) and tokens[behind].start < start + len(run):
            behind += 1
        if code and any(sign.isdigit() for sign in code) and any(sign.isalpha() for sign in code):
            if not code.isprintable() or (found and phrase_at(tokens, place)[0]):
                break
            found.append((code, place, behind))
        elif code:
            break
        place = behind
    return found, found[-1][2] if found else at


def tolerance_at(tokens: Sequence[Token], at: int) -> tuple[float, float, str, int] | None:
    """0/+5 W, -0 ~ +3 %, +/- 3 %, 0 to 5 W: least and most, in per cent or watts, and where it ends."""
    values: list[float] = []
    sign, both = "", False
    for place in range(at, min(at + 14, len(tokens))):
        text = tokens[place].text
        if text == "\n":
            return None
        if tokens[place].is_number:
            values.append(-number_of(text) if sign == "-" else number_of(text))
            sign, unit = "", unit_at(tokens, place + 1)
            behind = place + 1 + unit.length
            if unit.quantity in {"%", "W"} and (len(values) == 2 or not _another_number(tokens, behind)):
                low, high = (-abs(values[-1]), abs(values[-1])) if both else (min(*values, 0.0), max(*values, 0.0))
                return low, high, unit.quantity, behind
        elif text in "±+-":
            both = both or text == "±" or (sign == "+" and text == "-")
            sign = text
    return None


def _another_number(tokens: Sequence[Token], at: int) -> bool:
    """Does the other end follow, such as the 5 of "0 W ~ +5 W"?"""
    nearby = tokens[at : at + 4]
    return any(token.is_number for token in nearby) and all(
        token.is_number or token.text in {"~", "+", "-", "/", "to", "bis", "a"} for token in nearby[:2]
    )
