"""What does pasted label text claim about a panel?

One walk over the tokens: words that name a rating wait until a figure with a fitting unit comes; a figure after "NOCT",
at another temperature or irradiance is claimed but not taken. What is written nowhere is not claimed.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from service.core.identity.label_tokens import Token, number_of, tokens_of
from service.core.identity.label_units import NO_UNIT, Unit, unit_at
from service.core.identity.label_words import (
    CELLS,
    CODE,
    ELSEWHERE,
    FIRST_WORDS,
    FUSE,
    IMP,
    ISC,
    LONGEST_PHRASE,
    NOMINAL_CELL,
    PHRASES,
    POWER,
    SIZE,
    STANDARD,
    SYSTEM,
    TOLERANCE,
    VMP,
    VOC,
    WEIGHT,
)

MOST_CLAIMS = 100
_QUANTITIES = {POWER: "W", VOC: "V", ISC: "A", VMP: "V", IMP: "A", SYSTEM: "V", FUSE: "A", WEIGHT: "kg",
               NOMINAL_CELL: "C"}  # fmt: skip
_ELECTRIC = {POWER, VOC, ISC, VMP, IMP}
_COEFFICIENTS = {VOC: "voc", ISC: "isc", POWER: "power"}
_JOINS = {"-", ".", "_"}
_WAITS_TOKENS = 14  # a figure further away belongs to something else
_LONGEST_CODE = 40
_MOST_WAITING = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One thing that the label says: ``value`` in ``unit``, in the words from ``start`` to ``end`` (code points).

    ``what`` is a field of a panel, or ``voc_coefficient``, ``isc_coefficient``, ``power_coefficient`` with its unit,
    ``nominal_cell_c``, ``power_tolerance_low``, ``power_tolerance_high``. ``at_standard``: False where the figure holds
    at other than standard test conditions. ``named``: False where only the unit tells what it is.
    ``clear``: False where another name waited for the same figure and got none.
    """

    what: str
    value: float | str
    unit: str
    words: str
    start: int
    end: int
    at_standard: bool = True
    named: bool = True
    clear: bool = True


@dataclass(slots=True)
class _Waiting:
    what: str
    at: int
    unit: Unit = NO_UNIT
    answered: bool = False


@dataclass(slots=True)
class _Walk:
    """Where the reader stands."""

    text: str
    tokens: list[Token]
    at: int = 0
    waiting: list[_Waiting] = field(default_factory=list)
    last: str = ""
    elsewhere: bool = False
    line_elsewhere: bool = False
    claims: list[Claim] = field(default_factory=list)
    rivals: list[tuple[_Waiting, int]] = field(default_factory=list)

    def claim(self, what: str, value: float | str, unit: str, first: int, behind: int, *, named: bool = True) -> None:
        """Note a claim in the words from token ``first`` up to token ``behind``."""
        start, end = self.tokens[first].start, self.tokens[min(behind, len(self.tokens)) - 1].end
        standard = what not in _ELECTRIC or not (self.elsewhere or self.line_elsewhere)
        self.claims.append(
            Claim(what=what, value=value, unit=unit, words=self.text[start:end][:120], start=start, end=end,
                  at_standard=standard, named=named)
        )  # fmt: skip


def read_label(text: str) -> tuple[Claim, ...]:
    """All claims in a label's text, in its order; at most 100. Time is linear in the text; any text is harmless."""
    walk = _Walk(text, tokens_of(text))
    while walk.at < len(walk.tokens) and len(walk.claims) < MOST_CLAIMS:
        _step(walk)
    unclear = {place for rival, place in walk.rivals if not rival.answered}
    return tuple(replace(claim, clear=place not in unclear) for place, claim in enumerate(walk.claims))


def _step(walk: _Walk) -> None:
    token = walk.tokens[walk.at]
    if token.text == "\n":
        walk.line_elsewhere = False
        walk.at += 1
    elif token.is_number:
        _number(walk)
    elif token.text in FIRST_WORDS or token.text in ELSEWHERE or token.text in STANDARD:
        _word(walk)
    else:
        _loose_unit(walk)
        walk.at += 1


def _word(walk: _Walk) -> None:
    what, length = _phrase_at(walk.tokens, walk.at)
    if what == NOMINAL_CELL and not _temperature_follows(walk):
        what = ""
    if not what:
        text = walk.tokens[walk.at].text
        if text in STANDARD:
            walk.elsewhere = walk.line_elsewhere = False
        elif text in ELSEWHERE and not _is_second_column(walk):
            walk.elsewhere = True
        walk.at += max(length, 1)
    elif what == CODE:
        _code(walk, length)
    elif what == TOLERANCE:
        _tolerance(walk, length)
    else:
        if not walk.waiting or walk.waiting[-1].what != what:
            walk.waiting.append(_Waiting(what, walk.at))
        del walk.waiting[:-_MOST_WAITING]
        if what in _COEFFICIENTS:
            walk.last = what
        walk.at += length


def _phrase_at(tokens: list[Token], at: int) -> tuple[str, int]:
    """The longest phrase that begins at a token, and how many tokens it takes."""
    words: list[str] = []
    best, place = ("", 0), at
    while place < len(tokens) and len(words) < LONGEST_PHRASE:
        text = tokens[place].text
        if text in _JOINS and words:
            place += 1
            continue
        if not text.isalpha():
            break
        words.append(text)
        place += 1
        found = PHRASES.get(tuple(words))
        if found:
            best = (found, place - at)
    return best


def _rest_of_line(walk: _Walk, most: int) -> Iterator[int]:
    for place in range(walk.at, min(walk.at + most, len(walk.tokens))):
        if walk.tokens[place].text == "\n":
            return
        yield place


def _temperature_follows(walk: _Walk) -> bool:
    """Is it "NOCT 45 C", the panel's own temperature, and not the conditions of a table?"""
    for place in _rest_of_line(walk, 8):
        token = walk.tokens[place]
        if token.is_number and 30 <= number_of(token.text) <= 60:  # 45 C, 45 +/- 2 C
            return any(unit_at(walk.tokens, near).quantity == "C" for near in range(place + 1, place + 6))
    return False


def _is_second_column(walk: _Walk) -> bool:
    """Does "STC" stand before it in the same line? Then the first figure of each row is the one at STC."""
    for place in range(walk.at - 1, max(walk.at - 12, -1), -1):
        text = walk.tokens[place].text
        if text == "\n" or text[0].isdigit():
            return False
        if text in STANDARD:
            return True
    return False


def _code(walk: _Walk, length: int) -> None:
    """The run of signs without a space behind "model", if it has a digit in it."""
    walk.at += length
    place = walk.at
    while place < len(walk.tokens) and walk.tokens[place].text in {":", ".", "=", "/", "-", "#", "("}:
        place += 1
    if place >= len(walk.tokens) or walk.tokens[place].text == "\n":
        return
    start = walk.tokens[place].start
    code = walk.text[start : start + _LONGEST_CODE].split(maxsplit=1)[0].strip(",;:()[]")
    if not any(sign.isdigit() for sign in code) or not any(sign.isalpha() for sign in code) or not code.isprintable():
        return
    behind = place
    while behind < len(walk.tokens) and walk.tokens[behind].start < start + len(code):
        behind += 1
    walk.claim(CODE, code, "", place, behind)
    walk.at = behind


def _tolerance(walk: _Walk, length: int) -> None:
    """0/+5 W, -0 ~ +3 %, +/- 3 %, 0 to 5 W: least and most, in per cent or watts."""
    first = walk.at
    walk.at += length
    values: list[float] = []
    sign, both = "", False
    for place in _rest_of_line(walk, 14):
        text = walk.tokens[place].text
        if walk.tokens[place].is_number:
            values.append(-number_of(text) if sign == "-" else number_of(text))
            sign, unit = "", unit_at(walk.tokens, place + 1)
            if unit.quantity in {"%", "W"} and (len(values) == 2 or not _another_number(walk, place + 1 + unit.length)):
                low, high = (-abs(values[-1]), abs(values[-1])) if both else (min(*values, 0.0), max(*values, 0.0))
                walk.claim("power_tolerance_low", low, unit.quantity, first, place + 1 + unit.length)
                walk.claim("power_tolerance_high", high, unit.quantity, first, place + 1 + unit.length)
                walk.at = place + 1 + unit.length
                return
        elif text in "±+-":
            both = both or text == "±" or (sign == "+" and text == "-")
            sign = text


def _another_number(walk: _Walk, at: int) -> bool:
    """Does the other end follow, such as the 5 of "0 W ~ +5 W"?"""
    nearby = walk.tokens[at : at + 4]
    return any(token.is_number for token in nearby) and all(
        token.is_number or token.text in {"~", "+", "-", "/", "to", "bis", "a"} for token in nearby[:2]
    )


def _loose_unit(walk: _Walk) -> None:
    """A unit in brackets behind the name, as in "Voc [V]": kept for the figure to come."""
    if walk.waiting and walk.tokens[walk.at].text in {"(", "["}:
        unit = unit_at(walk.tokens, walk.at)
        if unit.quantity:
            walk.waiting[-1].unit = unit


def _number(walk: _Walk) -> None:
    if _size(walk) or _cells(walk):
        return
    first, token = walk.at, walk.tokens[walk.at]
    unit = unit_at(walk.tokens, first + 1)
    following = walk.tokens[first + 1].text if unit.length else ""
    value = number_of(token.text, following) * unit.factor
    if first and walk.tokens[first - 1].text == "-":
        value = -value
    walk.at = first + 1 + unit.length
    if unit.quantity == "W/m2":
        walk.elsewhere = value != 1000
    elif unit.quantity in {"%/K", "V/K", "A/K", "W/K"}:
        if walk.last:
            walk.claim(f"{_COEFFICIENTS[walk.last]}_coefficient", value, unit.quantity, first, walk.at)
            walk.waiting = [one for one in walk.waiting if one.what != walk.last]  # it named this figure and no other
    elif unit.quantity == "C" and not any(one.what == NOMINAL_CELL for one in walk.waiting):
        asked = any(one.what in _ELECTRIC for one in walk.waiting)
        walk.line_elsewhere = walk.line_elsewhere or (asked and value != 25)
    else:
        _answered(walk, value, unit, first)


def _answered(walk: _Walk, value: float, unit: Unit, first: int) -> None:
    """Give the figure to the first waiting name that it fits."""
    walk.waiting = [one for one in walk.waiting if first - one.at <= _WAITS_TOKENS]
    for place, one in enumerate(walk.waiting):
        wanted = _QUANTITIES.get(one.what)
        if wanted is None or (unit.quantity or one.unit.quantity or wanted) != wanted:
            continue
        figure = value if unit.quantity else value * one.unit.factor
        walk.claim(one.what, figure, wanted, one.at, walk.at)
        one.answered = True
        del walk.waiting[place]
        rivals = [other for other in walk.waiting if _QUANTITIES.get(other.what) == wanted]
        walk.rivals += [(other, len(walk.claims) - 1) for other in rivals]
        return
    bare = {"W": POWER, "kg": WEIGHT}.get(unit.quantity)
    if bare is not None and not walk.waiting:
        walk.claim(bare, value, unit.quantity, first, walk.at, named=False)


def _size(walk: _Walk) -> bool:
    """1640 x 992 x 35 mm: two or three figures with an x between, and a unit of length behind the last."""
    first, tokens = walk.at, walk.tokens
    places, place = [first], first + 1
    while len(places) < 3:
        place += unit_at(tokens, place).length if unit_at(tokens, place).quantity == "mm" else 0
        if place + 1 >= len(tokens) or tokens[place].text not in {"x", "*"} or not tokens[place + 1].is_number:
            break
        places.append(place + 1)
        place += 2
    unit = unit_at(tokens, places[-1] + 1)
    sized = any(one.what == SIZE for one in walk.waiting)
    if len(places) < 2 or not (unit.quantity == "mm" or (sized and not unit.quantity)):
        return False
    written = tokens[places[-1] + 1].text if unit.quantity else "mm"
    values = sorted((number_of(tokens[p].text, written) * unit.factor for p in places), reverse=True)
    if values[1] < 200:  # a cell, or a frame's section
        walk.at = places[-1] + 1
        return True
    walk.at = places[-1] + 1 + unit.length
    walk.claim("length_mm", values[0], "mm", first, walk.at)
    walk.claim("width_mm", values[1], "mm", first, walk.at)
    walk.waiting = [one for one in walk.waiting if one.what != SIZE]
    return True


def _cells(walk: _Walk) -> bool:
    """60 cells, 6 x 10 cells, cells: 144."""
    first, tokens = walk.at, walk.tokens
    count, place = number_of(tokens[first].text), first + 1
    if place + 1 < len(tokens) and tokens[place].text == "x" and tokens[place + 1].is_number:
        count, place = count * number_of(tokens[place + 1].text), place + 2
    behind = (
        place + 1 if place < len(tokens) and tokens[place].text in {"-", "half", "mono", "poly", "solar"} else place
    )
    what, length = _phrase_at(tokens, behind) if behind < len(tokens) else ("", 0)
    named = walk.waiting and walk.waiting[-1].what == CELLS and first - walk.waiting[-1].at <= 4
    if count != int(count) or not 10 <= count <= 300 or not (what == CELLS or named):
        return False
    if unit_at(tokens, place).quantity:
        return False
    walk.at = behind + length if what == CELLS else place
    walk.claim(CELLS, count, "", first, walk.at)
    walk.waiting = [one for one in walk.waiting if one.what != CELLS]
    return True
