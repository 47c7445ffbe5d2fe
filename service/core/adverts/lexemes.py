"""Which words mean something, and which figures with which units stand between them?"""

from dataclasses import dataclass, field

from service.core.adverts.lexicon import Lexicon
from service.core.adverts.tokens import pieces_of

NUMBER = "#"
_UNITS = {
    "w": ("W", 1.0), "wp": ("W", 1.0), "wc": ("W", 1.0), "watt": ("W", 1.0), "watts": ("W", 1.0), "vatios": ("W", 1.0),
    "watów": ("W", 1.0), "kw": ("W", 1000.0), "kwp": ("W", 1000.0), "kwc": ("W", 1000.0), "va": ("W", 1.0),
    "wattpiek": ("W", 1.0), "wat": ("W", 1.0), "vatio": ("W", 1.0), "v": ("V", 1.0), "volt": ("V", 1.0),
    "volts": ("V", 1.0), "vdc": ("V", 1.0), "voltios": ("V", 1.0), "a": ("A", 1.0), "amp": ("A", 1.0),
    "amps": ("A", 1.0), "ampere": ("A", 1.0), "adc": ("A", 1.0), "mm": ("mm", 1.0), "cm": ("mm", 10.0),
    "m": ("mm", 1000.0), "kg": ("kg", 1.0), "kilo": ("kg", 1.0), "kilos": ("kg", 1.0), "kilogramm": ("kg", 1.0),
    "quilos": ("kg", 1.0), "chili": ("kg", 1.0), "lb": ("kg", 0.45359237), "lbs": ("kg", 0.45359237),
    "inch": ("mm", 25.4), "inches": ("mm", 25.4), "metre": ("mm", 1000.0), "metres": ("mm", 1000.0),
    "wh": ("Wh", 1.0), "kwh": ("Wh", 1.0), "ah": ("Ah", 1.0), "km": ("km", 1.0), "ma": ("mA", 1.0),
    "hz": ("Hz", 1.0), "mv": ("mV", 1.0), "%": ("%", 1.0), "year": ("y", 1.0), "years": ("y", 1.0),
}  # fmt: skip
_MONEY = {"€": "EUR", "eur": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP", "gbp": "GBP", "pounds": "GBP",
          "quid": "GBP", "$": "USD", "usd": "USD", "dollars": "USD", "zl": "PLN", "pln": "PLN", "zlotych": "PLN",
          "kc": "CZK", "czk": "CZK", "korun": "CZK", "kr": "DKK", "dkk": "DKK", "kroner": "DKK", "chf": "CHF"}  # fmt: skip  # noqa: E501
CURRENCIES = frozenset(_MONEY.values())
_ONE_LETTER = frozenset("wvam")
_ENDS = frozenset(".!?\n|•;")
_WEAK = frozenset(",()[]:")


@dataclass(slots=True)
class Item:
    """A meaning, or a figure (``what`` is ``#``), in tokens ``at`` up to ``to``; signs ``start`` to ``end``.

    ``value`` and ``high`` are equal but for a range; ``unit`` is W, V, A, mm, kg, a currency, ``%/K`` or empty.
    """

    what: str
    at: int
    to: int
    sentence: int
    clause: int
    start: int
    end: int
    value: float = 0.0
    unit: str = ""
    glued: str = ""
    field: int = 0


@dataclass(slots=True)
class Lexed:
    """A field's items in order, and its tokens."""

    items: list[Item] = field(default_factory=list)
    tokens: list[str] = field(default_factory=list)
    starts: list[int] = field(default_factory=list)


@dataclass(slots=True)
class _Walk:
    words: list[str]
    starts: list[int]
    glued: list[bool]
    sent: str
    lexicon: Lexicon
    items: list[Item] = field(default_factory=list)
    sentence: int = 0
    clause: int = 0


def lexed(text: str, shown: str, lexicon: Lexicon) -> Lexed:
    """The items of a plain text. ``shown``: the same signs before small letters, where they tell a unit."""
    pieces, begins = pieces_of(text)
    words: list[str] = []
    starts: list[int] = []
    glued: list[bool] = []
    blank = True
    for piece, begin in zip(pieces, begins, strict=False):
        if piece[0] == " ":
            blank = True
            continue
        words.append(piece)
        starts.append(begin)
        glued.append(not blank)
        blank = False
    walk = _Walk(words, starts, glued, shown, lexicon)
    at, count = 0, len(words)
    while at < count:
        at = _step(walk, at)
    return Lexed(walk.items, words, starts)


def _step(walk: _Walk, at: int) -> int:
    word = walk.words[at]
    first = word[0]
    if "a" <= first <= "z":
        return _word(walk, at, word)
    if first.isdigit():
        return _number(walk, at)
    if first in _MONEY:
        _add(walk, "money:" + _MONEY[first], at, at + 1)
    elif first in _WEAK or first == "+":
        walk.clause += 1
    elif first in _ENDS:
        nxt = walk.words[at + 1] if at + 1 < len(walk.words) else "\n"
        short = (
            first == "." and at and len(walk.words[at - 1]) <= 4 and walk.words[at - 1].isalpha() and nxt[0].isdigit()
        )
        if not short and not (first == "." and at + 1 < len(walk.words) and walk.glued[at + 1]):
            walk.sentence += 1
            walk.clause += 1
    return at + 1


def _word(walk: _Walk, at: int, word: str) -> int:
    for rest, meanings in walk.lexicon.starting(word):
        to = _fits(walk, at + 1, rest) if rest else at + 1
        if to:
            for meaning in meanings:
                _add(walk, meaning, at, to)
            return to
    if word in _MONEY:
        _add(walk, "money:" + _MONEY[word], at, at + 1)
        return at + 1
    return _behind_code(walk, at)


def _behind_code(walk: _Walk, at: int) -> int:
    """Behind a model code (letters and digits run together with - / . _), or behind one word."""
    to, digits = at + 1, False
    while to < len(walk.words) and walk.glued[to] and to - at < 16:
        piece = walk.words[to]
        if piece[0] in "-/_" or piece[0].isalnum():
            digits = digits or piece[0].isdigit()
            to += 1
        else:
            break
    return to if digits and walk.words[at] != "x" else at + 1


def _fits(walk: _Walk, at: int, rest: tuple[str, ...]) -> int:
    """Behind the words of a phrase that go on at ``at``; 0 where they do not. Joining signs are passed over."""
    words, count = walk.words, len(walk.words)
    for want in rest:
        if at < count and words[at] in "-'./_" and at + 1 < count:
            at += 1
        if at >= count:
            return 0
        have = words[at]
        if have != want and not (want[-1] == "*" and have.startswith(want[:-1])):
            return 0
        at += 1
    return at


def _add(walk: _Walk, what: str, at: int, to: int, value: float = 0.0, unit: str = "") -> Item:
    last = to - 1
    item = Item(what, at, to, walk.sentence, walk.clause, walk.starts[at], walk.starts[last] + len(walk.words[last]),
                value, unit)  # fmt: skip
    walk.items.append(item)
    return item


def _number(walk: _Walk, at: int) -> int:
    words, count = walk.words, len(walk.words)
    raw, to = words[at], at + 1
    money_before = bool(walk.items) and walk.items[-1].what[:6] == "money:" and at - walk.items[-1].to <= 1
    if (len(raw) <= 3 and to < count and len(words[to]) == 3 and words[to].isdigit() and not walk.glued[to]
            and (money_before or (to + 1 < count and words[to + 1] in _MONEY))):  # fmt: skip
        raw, to = raw + words[to], to + 1
    unit, factor, behind = _unit(walk, to)
    if unit in CURRENCIES or money_before:
        end, value = to, money_of(raw)
        if to + 1 < count and words[to] in {",", "."} and words[to + 1] == "-":
            end = to + 2
            unit, _, behind = _unit(walk, end)
        if unit not in CURRENCIES and money_before:
            unit, behind = walk.items[-1].what[6:], end
        item = _add(walk, NUMBER, at, behind, value, unit)
    elif to + 1 < count and words[to] == "," and words[to + 1] == "-":
        behind = to + 2
        item = _add(walk, NUMBER, at, behind, money_of(raw), "money")
    else:
        item = _add(walk, NUMBER, at, behind, plain_number(raw, unit) * factor, unit)
    item.glued = words[at - 1] if at and walk.glued[at] else ""
    return behind


def _unit(walk: _Walk, at: int) -> tuple[str, float, int]:
    words, count = walk.words, len(walk.words)
    if at >= count:
        return "", 1.0, at
    word = words[at]
    if word in _MONEY:
        return _MONEY[word], 1.0, at + 1
    if word not in _UNITS:
        return "", 1.0, at
    unit, factor = _UNITS[word]
    if word in {"%", "v", "mv"} and at + 1 < count and words[at + 1] in {"/", "per", "pro", "par", "por"}:
        to = at + 2
        while to < count and words[to] in {"°", "k", "c", "o"} and to - at < 5:
            to += 1
        if to > at + 2:
            return {"%": "%/K", "v": "V/K", "mv": "V/K"}[word], {"mv": 0.001}.get(word, 1.0), to
    if word in _ONE_LETTER and not walk.glued[at]:
        start = walk.starts[at]
        capital = walk.sent[start : start + 1].isupper()
        if not capital and at + 1 < count and (words[at + 1][0].isalnum()):
            return "", 1.0, at
    to = at + 1
    if to < count and words[to] in {"dc", "ac", "p", "piek", "peak", "crete", "pico", "spitze", "picco"}:
        to += 1
    return unit, factor, to


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
