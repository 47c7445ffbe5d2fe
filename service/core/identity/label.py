"""What does pasted label text claim about a panel?

One walk over the tokens: words that name a rating wait until figures with a fitting unit come. What holds at other than
standard conditions, is a limit or an inverter's, has letters in its figure, or could be another name's, is claimed with
its doubt and not to be taken. What is written nowhere is not claimed.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from service.core.identity.label_claim import (
    ELECTRIC,
    INVERTERS,
    LIMIT,
    NO_RATING,
    POINT,
    QUANTITIES,
    UNCLEAR,
    Claim,
    Name,
)
from service.core.identity.label_figures import Figure, chunk_end, figure_at, nominal_follows, said_behind
from service.core.identity.label_lines import of_several, with_trailing_conditions
from service.core.identity.label_rows import Given, matched, rows_at
from service.core.identity.label_sizes import cells_at, codes_at, size_at, tolerance_at
from service.core.identity.label_tokens import Token, tokens_of
from service.core.identity.label_units import unit_at
from service.core.identity.label_words import (
    CELLS,
    CODE,
    ELSEWHERE,
    FIRST_WORDS,
    HEDGING,
    ISC,
    JOINING,
    KNOWN,
    LIMITING,
    NOMINAL_CELL,
    OF_INVERTERS,
    OF_PANELS,
    POWER,
    PREPOSITIONS,
    SAYING_AT,
    SIZE,
    STANDARD,
    TOLERANCE,
    VOC,
    WEIGHT,
    phrase_at,
)

MOST_CLAIMS = 100
_COEFFICIENTS = {VOC: "voc", ISC: "isc", POWER: "power"}
_WAITS_TOKENS = 24  # a figure further away belongs to something else
_STRANGE_WORDS = 3  # more words between a name and its figure that no label has: prose about something else
_NEAR = 3
_MOST_WAITING = 20


@dataclass(slots=True)
class _Walk:
    """Where the reader stands, and what the line and the heading above it have told."""

    text: str
    tokens: list[Token]
    at: int = 0
    line: int = 0
    names: list[Name] = field(default_factory=list)
    last: str = ""
    active: int = 0
    crowded: bool = False
    elsewhere: bool = False
    line_elsewhere: bool = False
    columns: tuple[bool, ...] = ()
    of_inverter: bool = False
    heading_of_inverter: bool = False
    panel_named: bool = False
    limit_at: int = -99
    hedge_at: int = -99
    loose: Figure | None = None
    claims: list[Claim] = field(default_factory=list)
    rivals: list[tuple[Name, int]] = field(default_factory=list)

    def claim(
        self, what: str, value: float | str, unit: str, words: tuple[int, int], *, doubt: str = "", named: bool = True,
        column: int = 1, columns: int = 1,
    ) -> None:  # fmt: skip
        """Note a claim in the words from one token up to another."""
        start, end = self.tokens[words[0]].start, self.tokens[min(words[1], len(self.tokens)) - 1].end
        self.claims.append(
            Claim(what=what, value=value, unit=unit, words=self.text[start:end][:120], start=start, end=end,
                  doubt=doubt, named=named, column=column, columns=columns)
        )  # fmt: skip


def read_label(text: str) -> tuple[Claim, ...]:
    """All claims in a label's text, in its order; at most 100. Time is linear in the text; any text is harmless."""
    walk = _Walk(text, tokens_of(text))
    _line_begins(walk)
    while walk.at < len(walk.tokens) and len(walk.claims) < MOST_CLAIMS:
        _step(walk)
    unclear = {place for rival, place in walk.rivals if not rival.answered}
    claims = walk.claims[:MOST_CLAIMS]
    clear = [
        replace(claim, doubt=claim.doubt or (UNCLEAR if place in unclear else "")) for place, claim in enumerate(claims)
    ]
    return with_trailing_conditions(clear, walk.tokens)


def _step(walk: _Walk) -> None:
    token = walk.tokens[walk.at]
    if token.text == "\n":
        walk.line += 1
        walk.at += 1
        _line_begins(walk)
    elif token.is_number:
        _number(walk)
    elif token.text in FIRST_WORDS or token.text in ELSEWHERE or token.text in STANDARD:
        _word(walk)
    else:
        _other(walk, token.text)
        walk.at += 1


def _line_begins(walk: _Walk) -> None:
    """Read the line ahead once: is it a heading, of columns of conditions or of somebody's figures?"""
    walk.line_elsewhere, walk.loose, walk.panel_named = False, None, False
    walk.limit_at = walk.hedge_at = -99
    end = walk.at
    while end < len(walk.tokens) and walk.tokens[end].text != "\n":
        end += 1
    line = walk.tokens[walk.at : end]
    words = {token.text for token in line}
    if not any(token.is_number for token in line):
        inverters, panels = bool(words & OF_INVERTERS), bool(words & OF_PANELS)
        if inverters != panels:
            walk.heading_of_inverter = inverters
    walk.of_inverter = walk.heading_of_inverter
    said = [token.text in STANDARD for token in line if token.text in STANDARD or token.text in ELSEWHERE]
    if said and not any(phrase_at(line, place)[0] in ELECTRIC for place in range(len(line))):
        walk.columns = ()
        if len(set(said)) == 2 and not _begins_row(line):
            walk.columns, walk.elsewhere, walk.at = tuple(said), False, end


def _begins_row(line: Sequence[Token]) -> bool:
    """Is it a row of figures with its condition at the head, and no heading?"""
    return len(line) > 1 and line[1].is_number and not unit_at(line, 2).quantity


def _other(walk: _Walk, text: str) -> None:
    """Signs and words that name nothing: a unit in brackets, a limit, a guess, whose figures they are."""
    if walk.names and text in {"(", "["}:
        unit = unit_at(walk.tokens, walk.at)
        if unit.quantity:
            walk.names[-1].unit = unit
    _marks(walk, text)


def _marks(walk: _Walk, text: str) -> None:
    if text in LIMITING:
        walk.limit_at = walk.at
        _doubt_last(walk, LIMIT)
    elif text in HEDGING:
        walk.hedge_at = walk.at
        _doubt_last(walk, NO_RATING)
    elif text in OF_INVERTERS:
        walk.of_inverter = True
    elif text in OF_PANELS:
        walk.of_inverter, walk.panel_named = False, True


def _doubt_last(walk: _Walk, doubt: str) -> None:
    """A word between a name and its figure, on the name's line, tells what the figure is."""
    if walk.names and walk.names[-1].what in POINT and walk.names[-1].line == walk.line:
        walk.names[-1].doubt = walk.names[-1].doubt or doubt


def _word(walk: _Walk) -> None:
    what, length = phrase_at(walk.tokens, walk.at)
    if what == NOMINAL_CELL and (_is_condition(walk) or not nominal_follows(walk.tokens, walk.at)):
        what = ""
    if not what:
        text = walk.tokens[walk.at].text
        if text in STANDARD:
            walk.elsewhere = walk.line_elsewhere = False
        elif text in ELSEWHERE:
            walk.elsewhere = True
        _marks(walk, text)
        walk.at += max(length, 1)
    elif what == CODE:
        walk.panel_named = walk.panel_named or walk.tokens[walk.at].text in OF_PANELS
        _codes(walk, length)
    elif what == TOLERANCE:
        _tolerance(walk, length)
    else:
        _name(walk, what, length)
        walk.at += length


def _is_condition(walk: _Walk) -> bool:
    """Does "at", or a bracket behind a rating's name, stand before NOCT, or its temperature in a bracket behind it?"""
    before = walk.tokens[walk.at - 1].text if walk.at else ""
    behind = walk.tokens[walk.at + 1 : walk.at + 3]
    bracketed = len(behind) == 2 and behind[0].text == "(" and behind[1].is_number
    waiting = any(one.what in ELECTRIC for one in walk.names)
    return before in SAYING_AT or bracketed or (before in PREPOSITIONS and waiting)


def _name(walk: _Walk, what: str, length: int) -> None:
    if walk.at - walk.active > _WAITS_TOKENS:
        walk.names, walk.crowded = [], False
    walk.active = walk.at + length
    if what in _COEFFICIENTS:
        walk.last = what
    if walk.names and walk.names[-1].what == what:
        walk.names[-1].behind = walk.at + length
        return
    name = Name(what, walk.at, walk.at + length, walk.line)
    if what in POINT and walk.at - walk.limit_at <= _NEAR:
        name.doubt = LIMIT
    elif what in POINT and walk.at - walk.hedge_at <= _NEAR:
        name.doubt = NO_RATING
    _figure_before(walk, name)
    walk.names.append(name)
    walk.crowded = walk.crowded or len(walk.names) > _MOST_WAITING
    del walk.names[_MOST_WAITING:]


def _figure_before(walk: _Walk, name: Name) -> None:
    """40.9 V Voc: the figure before a name and the one behind it may both be its own; neither is taken."""
    loose, walk.loose = walk.loose, None
    if loose is None or loose.unit.quantity != QUANTITIES.get(name.what) or name.at - loose.behind > 1:
        return
    if name.at - loose.behind == 1 and walk.tokens[loose.behind].text not in {"(", "="}:
        return
    walk.claim(name.what, loose.value, loose.unit.quantity, (loose.first, name.behind), doubt=UNCLEAR)
    name.doubt = UNCLEAR


def _codes(walk: _Walk, length: int) -> None:
    codes, behind = codes_at(walk.text, walk.tokens, walk.at + length)
    for column, (code, first, end) in enumerate(codes, 1):
        walk.claim(CODE, code, "", (first, end), column=column, columns=len(codes))
    walk.at = behind


def _tolerance(walk: _Walk, length: int) -> None:
    found = tolerance_at(walk.tokens, walk.at + length)
    first, walk.at = walk.at, walk.at + length
    if found is not None:
        low, high, unit, behind = found
        walk.claim("power_tolerance_low", low, unit, (first, behind))
        walk.claim("power_tolerance_high", high, unit, (first, behind))
        walk.at = behind


def _number(walk: _Walk) -> None:
    first = walk.at
    figure = figure_at(walk.tokens, first)
    if figure is None:
        walk.at = max(chunk_end(walk.tokens, first), first + 1)
        return
    if first and walk.tokens[first - 1].text == "am":  # AM 1.5: how much air the light goes through
        walk.at = figure.behind
        return
    if not figure.doubt and (_size(walk) or _cells(walk)):
        return
    quantity = figure.unit.quantity
    walk.at = figure.behind
    if quantity == "W/m2":
        walk.elsewhere = figure.value != 1000
    elif quantity in {"%/K", "V/K", "A/K", "W/K"}:
        if walk.last:
            coefficient = f"{_COEFFICIENTS[walk.last]}_coefficient"
            walk.claim(coefficient, figure.value, quantity, (first, walk.at))
            walk.names = [one for one in walk.names if one.what != walk.last]  # it named this figure and no other
    elif quantity == "C" and not any(one.what == NOMINAL_CELL for one in walk.names):
        asked = any(one.what in ELECTRIC for one in walk.names)
        walk.line_elsewhere = walk.line_elsewhere or (asked and figure.value != 25)
    else:
        _figures(walk, figure)


def _figures(walk: _Walk, figure: Figure) -> None:
    """Give the figures that begin here to the names that wait for them."""
    if figure.first - walk.active > _WAITS_TOKENS:
        walk.names, walk.crowded = [], False
    names = [one for one in walk.names if one.what in QUANTITIES]
    suiting = [one for one in names if one.takes(figure.unit)]
    if not suiting:
        _unnamed(walk, figure)
        return
    below = all(one.line < walk.line for one in names)
    rows = rows_at(walk.tokens, figure.first, below=below)
    if figure.doubt or not rows:
        _give(walk, Given(name=suiting[0], figure=figure))
    elif sum(len(row.figures) for row in rows) == 1 and not _headed(names, rows[0].figures[0]):
        given = Given(name=suiting[0], figure=rows[0].figures[0])
        off = walk.elsewhere or walk.line_elsewhere or walk.columns
        for one in matched([given.name], rows, walk.columns, elsewhere=bool(off)):
            _give(walk, one)
        others = [one for one in names if one is not given.name and QUANTITIES[one.what] == QUANTITIES[given.name.what]]
        walk.rivals += [(other, len(walk.claims) - 1) for other in others]
    else:
        for one in matched(names, rows, walk.columns, elsewhere=walk.elsewhere or walk.line_elsewhere):
            _give(walk, one)
    walk.at = max(walk.at, rows[-1].behind if rows and not figure.doubt else walk.at)
    walk.line += sum(token.text == "\n" for token in walk.tokens[figure.first : walk.at])
    walk.active = walk.at
    walk.names = [one for one in walk.names if not one.answered]


def _headed(names: Sequence[Name], figure: Figure) -> bool:
    """A single bare figure below several names of one line answers none of them for sure."""
    return len(names) > 1 and len({one.line for one in names}) == 1 and not figure.unit.quantity


def _give(walk: _Walk, given: Given) -> None:
    name, figure = given.name, given.figure
    factor = 1.0 if figure.unit.quantity else name.unit.factor
    doubt = figure.doubt or name.doubt or given.doubt or _strange(walk, given)
    words = (name.at, figure.behind)
    walk.claim(name.what, figure.value * factor, QUANTITIES[name.what], words, doubt=doubt, column=given.column,
               columns=given.columns)  # fmt: skip
    name.answered = True


def _strange(walk: _Walk, given: Given) -> str:
    """Is it the inverter's, a limit or a guess by the words around it, or too far into prose to be told?"""
    name, figure, tokens = given.name, given.figure, walk.tokens
    if walk.crowded:
        return UNCLEAR
    if name.what in ELECTRIC and (walk.of_inverter or (not walk.panel_named and _inverter_behind(tokens, figure))):
        return INVERTERS
    if name.what in POINT and said_behind(tokens, figure.behind):
        return said_behind(tokens, figure.behind)
    between = tokens[max(name.behind, walk.active) : figure.first]
    unknown = sum(token.text.isalpha() and token.text not in KNOWN for token in between)
    return UNCLEAR if name.what in POINT and unknown > _STRANGE_WORDS else ""


def _inverter_behind(tokens: Sequence[Token], figure: Figure) -> bool:
    """18 A per input: words that join, then a word for the inverter's side."""
    for token in tokens[figure.behind : figure.behind + 4]:
        if token.text in OF_INVERTERS:
            return True
        if token.text not in JOINING:
            return False
    return False


def _unnamed(walk: _Walk, figure: Figure) -> None:
    """A figure for which no name waits; watts and kilograms tell by their unit what they are."""
    if figure.doubt:
        return
    walk.loose = figure if figure.unit.quantity in {"V", "A", "W"} else None
    bare = {"W": POWER, "kg": WEIGHT}.get(figure.unit.quantity)
    if bare is not None and not walk.names and not walk.of_inverter:
        words = (figure.first, figure.behind)
        doubt = UNCLEAR if of_several(walk.tokens, figure.first, figure.behind) else ""
        walk.claim(bare, figure.value, figure.unit.quantity, words, named=False, doubt=doubt)


def _size(walk: _Walk) -> bool:
    first = walk.at
    found = size_at(walk.tokens, first, named=any(one.what == SIZE for one in walk.names))
    if found is None:
        return False
    sides, walk.at = found
    if sides is not None:
        walk.claim("length_mm", sides[0], "mm", (first, walk.at))
        walk.claim("width_mm", sides[1], "mm", (first, walk.at))
        walk.names = [one for one in walk.names if one.what != SIZE]
    return True


def _cells(walk: _Walk) -> bool:
    first = walk.at
    named = bool(walk.names) and walk.names[-1].what == CELLS and first - walk.names[-1].at <= 4
    found = cells_at(walk.tokens, first, named=named)
    if found is None:
        return False
    count, walk.at = found
    walk.claim(CELLS, count, "", (first, walk.at))
    walk.names = [one for one in walk.names if one.what != CELLS]
    return True
