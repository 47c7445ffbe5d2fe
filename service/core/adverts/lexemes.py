"""Which words mean something, and which figures with which units stand between them?

One walk over the words of a field. Most words mean nothing and cost one look into a table.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from service.core.adverts.lexicon import BRACKET, DASH, ENDS, FIGURE, PARTS, Lexicon, Phrases, Start
from service.core.adverts.plain import Plain
from service.core.adverts.tokens import Pieces

NUMBER = "#"
MONEY = "money:"
SPELLED = "n:"
CURRENCIES = frozenset(("EUR", "GBP", "USD", "PLN", "CZK", "DKK", "CHF"))
_BREAK = "but"
_PEAK = frozenset(("wp", "kwp", "wc", "kwc", "wattpiek", "kwcrete"))
_PEAK_BEHIND = frozenset(("p", "piek", "peak", "crete", "pico", "spitze", "picco", "szczytowej"))
_BEHIND_UNIT = _PEAK_BEHIND | {"dc", "ac"}
_PER = frozenset(("/", "per", "pro", "par", "por", "na", "al", "a", "je", "pr", "for", "op"))
_DEGREE = frozenset(
    (
        "°",
        "k",
        "c",
        "o",
        "grad",
        "degree",
        "deg",
        "kelvin",
        "stupen",
        "grado",
        "grau",
        "degre",
        "degres",
        "gradi",
        "grados",
        "graus",
        "graad",
        "graden",
        "celsius",
        "stupne",
        "stopien",
        "oc",
    )
)
_LONGEST_CODE = 16
_MOST_TELLING = 4000  # of one field: ten times what the longest honest text has
_LONGEST_PLAIN = 5
_DEEPEST = 8
_HYPHENED = frozenset(("W", "V", "kg"))
_JOINING = frozenset("-'./_")


class Item:
    """A meaning, or a figure (``what`` is ``#``), in pieces ``at`` up to ``to`` of a field.

    ``unit`` is W, V, A, mm, kg, a currency, ``%/K`` or empty; ``factor`` what it multiplied the figure by; ``glued``
    the piece directly before a figure; ``peak``: watts of a panel by their unit; ``spelled``: a number word.
    """

    value = 0.0
    unit = ""
    glued = ""
    factor = 1.0
    peak = False
    spelled = False

    def __init__(self, what: str, at: int, to: int, sentence: int, clause: int, field: int) -> None:
        self.what = what
        self.at = at
        self.to = to
        self.sentence = sentence
        self.clause = clause
        self.field = field


@dataclass(slots=True)
class Lexed:
    """A field's items in order, and its pieces."""

    items: list[Item]
    pieces: Pieces


@dataclass(slots=True)
class _Walk:
    words: list[str]
    gaps: list[str]
    pieces: Pieces
    shown: str
    lexicon: Lexicon
    number: int
    sentence: int
    clause: int
    items: list[Item] = field(default_factory=list)
    outer: list[int] = field(default_factory=list)
    clauses: int = 0
    currency: str = ""
    currency_to: int = -9

    def glued(self, at: int) -> bool:
        """Does piece ``at`` stand directly behind another one?"""
        return 0 < at < len(self.words) and not self.gaps[at]

    def add(self, what: str, at: int, to: int) -> Item:
        """A new item."""
        item = Item(what, at, to, self.sentence, self.clause, self.number)
        self.items.append(item)
        return item


def lexed(
    plain: Plain, pieces: Pieces, lexicon: Lexicon, number: int, base: int = 0, flood: Sequence[bool] | None = None
) -> Lexed:
    """The items of a plain text cut into pieces, field ``number``; sentences and clauses count from ``base`` on.

    Pieces of a ``flood`` are passed over, and of what is no flood the first 4,000 that may mean something are read.
    """
    words, known = pieces.words, lexicon.kept
    walk = _Walk(words, pieces.gaps, pieces, plain.shown, lexicon, number, base, base, clauses=base)
    done = 0
    telling = [at for at, word in enumerate(words) if known.get(word, FIGURE)]  # the most words are known as nothing
    if flood is not None:
        telling = [at for at in telling if not flood[at]]
    for at in telling[:_MOST_TELLING]:
        if at < done:
            continue
        found = known.get(words[at])
        if found is None:
            found = lexicon.look_up(words[at])
        if found.__class__ is Phrases:
            done = _phrase(walk, at, found)
        elif found == FIGURE:
            done = _figure(walk, at)
        elif found == PARTS:
            walk.clauses += 1
            walk.clause = walk.clauses
        elif found:
            _sign(walk, at, found)
    if flood is not None:
        walk.items = [item for item in walk.items if not any(flood[item.at : item.to])]
    return Lexed(walk.items, pieces)


def _sign(walk: _Walk, at: int, kind: Start) -> None:
    if kind == BRACKET:
        if walk.words[at] in ")]" and walk.outer:
            walk.clause = walk.outer.pop()
            return
        if walk.words[at] in "([" and len(walk.outer) < _DEEPEST:
            walk.outer.append(walk.clause)
        _new_clause(walk)
    elif kind == DASH:
        if walk.gaps[at] and walk.gaps[at + 1]:
            _new_clause(walk)
    elif kind == ENDS and not _cuts_short(walk, at):
        walk.sentence += 1
        walk.outer.clear()
        _new_clause(walk)


def _new_clause(walk: _Walk) -> None:
    walk.clauses += 1
    walk.clause = walk.clauses


def _cuts_short(walk: _Walk, at: int) -> bool:
    """Is it a point within or behind a shortened word?"""
    if walk.words[at] != "." or at + 1 >= len(walk.words):
        return False
    if not walk.gaps[at + 1]:
        return walk.words[at + 1] != "\n"
    before = walk.words[at - 1] if at else ""
    if (
        walk.items and walk.items[-1].to == at and walk.items[-1].unit
    ):  # "350 kr. pr. stk." goes on, "350 kr. Fetch" ends
        return before in walk.lexicon.short and not walk.shown[walk.pieces.starts[at + 1] :][:2].istitle()
    return before in walk.lexicon.short or (len(before) == 1 and before.isalpha() and before not in "wvak")


def _phrase(walk: _Walk, at: int, found: Phrases) -> int:
    words, to, meanings = walk.words, at + 1, found.alone
    if (found.by_second or found.stems) and to < len(words):
        after = to + 1 if words[to] in _JOINING and to + 1 < len(words) else to
        for rest, longer in (*found.by_second.get(words[after], ()), *found.stems):
            behind = _fits(walk, after, rest)
            if behind:
                to, meanings = behind, longer
                break
    if not meanings:
        return at + 1
    for meaning in meanings:
        if meaning == _BREAK:
            _new_clause(walk)
        elif meaning[:6] == MONEY:
            walk.currency, walk.currency_to = meaning[6:], to
        else:
            item = walk.add(meaning, at, to)
            if meaning[:2] == SPELLED:
                to = _spelled(walk, item, to)
    return to


def _spelled(walk: _Walk, item: Item, to: int) -> int:
    """A number word is a figure; with its unit where one follows."""
    item.value, item.what, item.spelled = float(item.what[2:]), NUMBER, True
    if item.value > 1 and to < len(walk.words) and not walk.glued(to):
        unit, factor, behind, peak = _unit(walk, to)
        if unit and len(walk.words[to]) > 1:
            item.unit, item.value, item.to, item.peak, item.factor = unit, item.value * factor, behind, peak, factor
            return behind
    return to


def _fits(walk: _Walk, at: int, rest: tuple[str, ...]) -> int:
    """Behind the words of a phrase that go on at ``at``; 0 where they do not. Joining signs are passed over."""
    words, count = walk.words, len(walk.words)
    for want in rest:
        if words[at : at + 1] and words[at] in _JOINING and at + 1 < count:
            at += 1
        if at >= count:
            return 0
        have = words[at]
        if have != want and not (want[-1] == "*" and have.startswith(want[:-1])):
            return 0
        at += 1
    return at


def _figure(walk: _Walk, at: int) -> int:
    """A figure with its unit or currency; a piece of a model code, a date or a row of digits is passed over."""
    words, count = walk.words, len(walk.words)
    code = _code(walk, at)
    if code:
        return code
    raw, to = words[at], at + 1
    money = walk.currency if 0 <= at - walk.currency_to <= 1 and _joins(walk, at) else ""
    if (len(raw) <= 3 and to < count and len(words[to]) == 3 and words[to].isdigit() and not walk.glued(to)
            and (money or (to + 1 < count and _currency(walk, to + 1)))):  # fmt: skip
        raw, to = raw + words[to], to + 1
    dashed = to + 1 < count and words[to] in {",", "."} and words[to + 1] == "-"
    hyphen = to + 1 < count and words[to] == "-" and not walk.gaps[to] and not walk.gaps[to + 1]  # "800-W-inverter"
    if hyphen and walk.lexicon.units.get(words[to + 1], ("", 1.0))[0] in _HYPHENED:
        to += 1
    unit, factor, behind, peak = _unit(walk, to + 2 if dashed else to)
    if money and unit not in CURRENCIES:
        unit, behind, peak = money, to + 2 * dashed, False
    elif dashed and unit not in CURRENCIES:
        unit, behind, peak = "money", to + 2, False
    elif to < count and not unit and walk.glued(to) and _unknown(walk, to):
        return _behind_run(walk, to)
    if unit in CURRENCIES or unit == "money":
        value = money_of(raw)
        if behind < count and words[behind].isdigit() and len(words[behind]) == 2 and walk.glued(behind):
            value, behind = value + int(words[behind]) / 100, behind + 1
        walk.currency_to = -9
    else:
        value = plain_number(raw, unit) * factor
    item = walk.add(NUMBER, at, behind)
    item.value, item.unit = value, unit
    if at and not walk.gaps[at]:
        item.glued = words[at - 1]
    item.peak, item.factor = peak, factor
    return behind


def _joins(walk: _Walk, at: int) -> bool:
    return at == walk.currency_to or walk.words[at - 1] in {".", ":", "="}


def _currency(walk: _Walk, at: int) -> bool:
    return walk.lexicon.units.get(walk.words[at], ("", 1.0))[0] in CURRENCIES


def _code(walk: _Walk, at: int) -> int:
    """Behind a model code that the figure at ``at`` stands in; 0 where it stands in none."""
    if not at or walk.gaps[at]:
        return _behind_run(walk, at) if _chained(walk, at) else 0
    before = walk.words[at - 1]
    known = bool(walk.items) and walk.items[-1].to == at
    if before.isalpha():
        told = known or before in {"x", "ca", "a", "je", "um", "u", "i"} or walk.currency_to == at
        return 0 if told else _behind_run(walk, at)
    if before == "#":
        return at + 1
    if before in "-/_" and walk.glued(at - 1) and walk.words[at - 2].isalpha():
        known = bool(walk.items) and walk.items[-1].to == at - 1
        if known and walk.items[-1].what == NUMBER:
            return 0 if walk.items[-1].unit else _behind_run(walk, at)
        return 0 if known and (before == "/" or _unit(walk, at + 1)[0]) else _behind_run(walk, at)
    return 0


def _chained(walk: _Walk, at: int) -> bool:
    """Three figures in a row with - or / between (a date, a code), or two points as in a date?"""
    words = walk.words
    if len(words[at]) > _LONGEST_PLAIN and words[at].count(".") == 2 and len(words[at].rpartition(".")[2]) in {2, 4}:
        return True
    if at + 4 >= len(words) or words[at + 1] not in {"-", "/"} or words[at + 3] not in {"-", "/"}:
        return False
    return ((words[at + 4][0:1].isdigit() and all(walk.glued(one) for one in range(at + 1, at + 5))
            and words[at + 1] == "-") or (words[at + 1] != words[at + 3] and walk.glued(at + 1)))  # fmt: skip


def _unknown(walk: _Walk, at: int) -> bool:
    word = walk.words[at]
    if not word.isalpha() or word in {"x", "er"}:
        return False
    known = walk.lexicon.kept.get(word)
    return not (walk.lexicon.look_up(word) if known is None else known) and word not in walk.lexicon.units


def _behind_run(walk: _Walk, at: int) -> int:
    to = at + 1
    while to - at < _LONGEST_CODE and walk.glued(to) and (walk.words[to] in "-/_" or walk.words[to].isalnum()):
        to += 1
    return to


def _unit(walk: _Walk, at: int) -> tuple[str, float, int, bool]:
    """Unit, factor, behind it, and whether it is one of peak power; "" where none stands at ``at``."""
    words, count = walk.words, len(walk.words)
    if at >= count:
        return "", 1.0, at, False
    word = words[at]
    known = walk.lexicon.units.get(word)
    if known is None:
        return "", 1.0, at, False
    unit, factor = known
    if unit in {"%", "V", "mV", "A"} and at + 2 < count and words[at + 1] in _PER:
        to = at + 2
        while to < count and words[to] in _DEGREE and to - at < 5:
            to += 1
        if to > at + 2:
            return {"%": "%/K", "V": "V/K", "mV": "V/K", "A": "A/K"}[unit], 0.001 if unit == "mV" else 1.0, to, False
    if word in walk.lexicon.no_unit and not walk.glued(at) and at + 1 < count:
        start = walk.pieces.starts[at]
        capital = walk.shown[start : start + 1].isupper()
        following = words[at + 1][0:1]
        if (following.isdigit() and word == "a") or (following.isalnum() and not capital):
            return "", 1.0, at, False
    if unit == "mm" and at + 1 < count and words[at + 1] in {"2", "3"} and walk.glued(at + 1):
        return "m2", 1.0, at + 2, False  # an area, a room
    to = at + 1
    peak = word in _PEAK
    if (
        unit == "W"
        and to < count
        and (words[to] in _BEHIND_UNIT or (words[to] == "-" and words[to + 1 : to + 2] == ["peak"]))
    ):
        to += 1 + (words[to] == "-")
        peak = peak or words[to - 1] in _PEAK_BEHIND
    elif to < count and words[to] in {"dc", "ac"}:
        to += 1
    return unit, factor, to, peak


def plain_number(raw: str, unit: str) -> float:
    """A figure with point or comma; three digits behind it are thousands where the unit asks for a large number.

    >>> plain_number("38,5", "V"), plain_number("1.722", "mm"), plain_number("0,395", "W")
    (38.5, 1722.0, 0.395)
    """
    parts = raw.replace("'", ",").replace(",", ".").split(".")
    if len(parts) == 1:
        return float(raw)
    thousands = len(parts) > 2 or (len(parts[1]) == 3 and unit in {"mm", "V", "W"} and parts[0] not in {"0", "00"})
    return float("".join(parts)) if thousands else float(parts[0] + "." + parts[1])


def money_of(raw: str) -> float:
    """An amount: two digits at the end are hundredths, three are thousands.

    >>> money_of("1.860"), money_of("60,00"), money_of("1,650.50")
    (1860.0, 60.0, 1650.5)
    """
    parts = raw.replace("'", ",").replace(",", ".").split(".")
    if len(parts) > 1 and len(parts[-1]) != 3:
        return float("".join(parts[:-1]) + "." + parts[-1])
    return float("".join(parts))
