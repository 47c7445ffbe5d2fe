"""Which figure with which unit stands at a number, and is it a figure at all, or a piece of a code or a date?"""

from service.core.adverts.walk import CURRENCIES, MONEY_UNITS, NUMBER, Item, Walk

_FOOT = 304.8
_LONGEST_CODE = 16
_LONGEST_PLAIN = 5
_HYPHENED = frozenset(("W", "V", "kg"))
_TOLD_BEFORE = frozenset(("x", "ca", "a", "je", "um", "u", "i"))
_CHAINING = frozenset("-/")
_POINTS = frozenset(",.")
_OPENS = _POINTS | {"-"}
_MONEY_SIGNS = frozenset("€£$")
_LARGE = frozenset(("mm", "V", "W"))
_NO_UNIT = ("", 1.0)


def measured(walk: Walk, at: int) -> int:
    """A figure with its unit or currency; a piece of a model code, a date or a row of digits is passed over.

    Returns the piece to go on with.
    """
    words, apart = walk.words, walk.apart
    count, raw, to = len(words), words[at], at + 1
    behind = words[to] if to < count else ""
    if not apart[at]:
        code = _code(walk, at)
    else:
        code = _behind_run(walk, at) if (behind in _CHAINING or raw.count(".") == 2) and _chained(walk, at) else 0
    if code:
        return code
    money = ""
    if walk.currency_to >= at - 1 and (at == walk.currency_to or words[at - 1] in {".", ":", "="}):
        money = walk.currency
    if len(behind) == 3 and len(raw) <= 3 and behind.isdigit() and apart[to] and (money or _grouped(walk, raw, to + 1)):
        raw, to = raw + behind, to + 1  # "1 860 euro", "2 278 x"
        behind = words[to] if to < count else ""
    unit, factor, end, peak = _unit(walk, to, behind, money) if money or behind in _OPENS else walk.unit(to)
    if not unit and behind and not apart[to] and _unknown(walk, to):
        return _behind_run(walk, to)
    if behind in _MONEY_SIGNS and not money and _of_the_next(walk, to):
        unit, end = "", to
    item = Item(NUMBER, at, end, walk.sentence, walk.clause, walk.number)
    if unit in MONEY_UNITS:
        _amount(walk, item, raw)
    else:
        item.value = plain_number(raw, unit if factor == 1 else "") * factor  # "1,956 m" are no thousands
        if factor == _FOOT:
            _inches(walk, item)
    if unit:
        item.unit, item.peak, item.factor = unit, peak, factor
    if not apart[at]:
        item.glued = words[at - 1]
    walk.items.append(item)
    return item.to


def _of_the_next(walk: Walk, at: int) -> bool:
    """Does the sign of a currency belong to the figure behind it, as in "job lot of 8 £400"?"""
    return at + 1 < len(walk.words) and walk.words[at + 1][0].isdigit() and walk.glued(at + 1) and not walk.glued(at)


def _unit(walk: Walk, to: int, behind: str, money: str) -> tuple[str, float, int, bool]:
    """The unit behind a figure that has a currency before it, or behind which ",-" or a hyphen stands."""
    words, apart = walk.words, walk.apart
    dashed = 2 * (behind in _POINTS and words[to + 1 : to + 2] == ["-"])
    if behind == "-" and to + 1 < len(words) and not apart[to] and not apart[to + 1]:  # "800-W-inverter"
        to += walk.lexicon.units.get(words[to + 1], _NO_UNIT)[0] in _HYPHENED
    unit, factor, end, peak = walk.unit(to + dashed)
    if unit in CURRENCIES or not (money or dashed):
        return unit, factor, end if unit or not dashed else to, peak
    return money or "money", factor, to + dashed, False


def _inches(walk: Walk, item: Item) -> None:
    """Inches behind feet: "5ft 4"."""
    word = walk.words[item.to] if item.to < len(walk.words) else ""
    if word.isdigit() and int(word) < 12:
        item.value += 25.4 * int(word)
        item.to += 1 + (walk.unit(item.to + 1)[1] == 25.4)


def _amount(walk: Walk, item: Item, raw: str) -> None:
    """The value of an amount of money; two digits directly behind its currency are hundredths."""
    words, end = walk.words, item.to
    item.value = money_of(raw)
    if end < len(words) and words[end].isdigit() and len(words[end]) == 2 and not walk.apart[end]:
        item.value += int(words[end]) / 100
        item.to = end + 1
    walk.currency_to = -9


def _grouped(walk: Walk, raw: str, at: int) -> bool:
    """Does a currency or the side of something stand behind three digits that may go on with a figure?"""
    word = walk.words[at] if at < len(walk.words) else ""
    return walk.lexicon.units.get(word, _NO_UNIT)[0] in MONEY_UNITS or (len(raw) == 1 and word in {"x", "mm"})


def _code(walk: Walk, at: int) -> int:
    """Behind the model code in which the figure at ``at``, glued to a piece before it, stands; 0: it stands in none."""
    words = walk.words
    before = words[at - 1]
    if before.isalpha():
        told = before in _TOLD_BEFORE or walk.currency_to == at or (bool(walk.items) and walk.items[-1].to == at)
        return 0 if told else _behind_run(walk, at)
    if before == "#":
        return at + 1
    if before in "-/_" and walk.glued(at - 1) and words[at - 2].isalpha():
        known = bool(walk.items) and walk.items[-1].to == at - 1
        if known and walk.items[-1].what == NUMBER:
            return 0 if walk.items[-1].unit else _behind_run(walk, at)
        return 0 if known and (before == "/" or walk.unit(at + 1)[0]) else _behind_run(walk, at)
    return 0


def _chained(walk: Walk, at: int) -> bool:
    """Three figures in a row with - or / between (a date, a code), or two points as in a date?"""
    words, apart = walk.words, walk.apart
    raw = words[at]
    if len(raw) > _LONGEST_PLAIN and raw.count(".") == 2 and len(raw.rpartition(".")[2]) in {2, 4}:
        return True
    if at + 4 >= len(words) or words[at + 1] not in {"-", "/"} or words[at + 3] not in {"-", "/"}:
        return False
    if words[at + 1] != words[at + 3]:
        return not apart[at + 1]
    return words[at + 1] == "-" and words[at + 4][0].isdigit() and not any(apart[at + 1 : at + 5])


def _unknown(walk: Walk, at: int) -> bool:
    word = walk.words[at]
    return (word.isalpha() and word not in {"x", "er"} and not walk.lexicon.known[word]
            and word not in walk.lexicon.units)  # fmt: skip


def _behind_run(walk: Walk, at: int) -> int:
    words, to = walk.words, at + 1
    while to - at < _LONGEST_CODE and walk.glued(to) and (words[to] in "-/_" or words[to].isalnum()):
        to += 1
    return to


def plain_number(raw: str, unit: str) -> float:
    """A figure with point or comma; three digits behind it are thousands where the unit asks for a large number.

    >>> plain_number("38,5", "V"), plain_number("1.722", "mm"), plain_number("0,395", "W")
    (38.5, 1722.0, 0.395)
    """
    if raw.isdigit():
        return float(raw)
    parts = raw.replace("'", ",").replace(",", ".").split(".")
    thousands = len(parts) > 2 or (len(parts[1]) == 3 and unit in _LARGE and parts[0] not in {"0", "00"})
    return float("".join(parts)) if thousands else float(parts[0] + "." + parts[1])


def money_of(raw: str) -> float:
    """An amount: two digits at the end are hundredths, three are thousands.

    >>> money_of("1.860"), money_of("60,00"), money_of("1,650.50")
    (1860.0, 60.0, 1650.5)
    """
    if raw.isdigit():
        return float(raw)
    parts = raw.replace("'", ",").replace(",", ".").split(".")
    if len(parts) > 1 and len(parts[-1]) != 3:
        return float("".join(parts[:-1]) + "." + parts[-1])
    return float("".join(parts))
