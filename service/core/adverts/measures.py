"""Which figure with which unit stands at a number, and is it a figure at all, or a piece of a code or a date?"""

from service.core.adverts.lexicon import BEFORE_UNITS, UnitWord
from service.core.adverts.loose import loose_amount
from service.core.adverts.numerals import Figure, figure_of
from service.core.adverts.plain import HALVES
from service.core.adverts.thousands import dash_behind, goes_on
from service.core.adverts.walk import CURRENCIES, DECIDING, MONEY_UNITS, NUMBER, OF_CURRENT, Item, Walk

_FOOT, _METRE = 304.8, 1000.0
_LONGEST_CODE = 16
_LONGEST_PLAIN = 5
_HYPHENED = frozenset(("W", "V", "kg"))
_MONEY_SIGNS = frozenset("€£$")
_BEFORE_AMOUNT = frozenset(".:=")
_LARGE = frozenset(("mm", "V", "W"))
_LIKE_WATTS = (150.0, 720.0)
_NO_UNIT = ("", 1.0, False, False)
_GROUP, _GROUP_AND_CENTS = 3, 6  # signs of what may go on with a figure: "200", "200,00"
_PARTS_OF_ONE = frozenset("13")
_BELOW = {"2": 2.0, "4": 4.0}


def measured(walk: Walk, at: int, figure: Figure) -> int:
    """A figure with its unit or currency; a piece of a model code, a date or a row of digits is passed over.

    Returns the piece to go on with.
    """
    words, gaps, to = walk.padded, walk.gaps, at + 1
    behind, glued = words[to], not gaps[at]
    if glued or figure.dated or behind in walk.small.chaining:
        code = _code(walk, at) if glued else _chain(walk, at)
        if code:
            return code
        if behind in walk.small.growing:
            figure, to = _with_half(walk, figure, to)
            behind = words[to]
    money = ""
    if walk.currency_to >= at - 1 and (at == walk.currency_to or words[at - 1] in _BEFORE_AMOUNT):
        money = walk.currency
    if (
        (len(behind) == _GROUP or len(behind) == _GROUP_AND_CENTS)
        and behind[0].isdigit()
        and goes_on(walk, figure, to, money)
    ):
        figure, to = figure_of(figure.raw + behind), to + 1  # "1 860 euro", "2 278 x", "1 200,00 zł"
        behind = words[to]
    if behind in _PARTS_OF_ONE and gaps[to]:
        figure, to = _with_part(walk, figure, to)
        behind = words[to]
    item = Item(NUMBER, at, to, walk.sentence, walk.clause, walk.number)
    if (known := walk.units.get(behind)) is None and not money and behind not in BEFORE_UNITS:
        if behind in walk.loose and loose_amount(walk, item, figure, money):
            walk.items.append(item)
            return item.to
        item.value = figure.value
        if behind and not gaps[to] and not _of_watts(walk, item, figure) and _unknown(walk, to):
            return _behind_run(walk, to)
    elif not _with_unit(walk, item, figure, known, money):
        return _behind_run(walk, to)
    if glued:
        item.glued = words[at - 1]
    walk.items.append(item)
    return item.to


def _with_part(walk: Walk, figure: Figure, to: int) -> tuple[Figure, int]:
    """A figure with a part of one behind it, written with a stroke and before a unit: "13 1/2 A", "2 3/4 kg"."""
    words, end = walk.padded, to + 3
    below = _BELOW.get(words[to + 2], 0.0)
    if words[to + 1] != "/" or not below or not (walk.glued(to + 1) and walk.glued(to + 2)):
        return figure, to
    if words[end] not in walk.units or not figure.raw.isdigit():
        return figure, to
    value = figure.value + int(words[to]) / below
    return Figure(figure.raw, value, value, value, dated=False), end


def _with_half(walk: Walk, figure: Figure, to: int) -> tuple[Figure, int]:
    """A figure with the half directly behind it: "32½"; and "no" behind one that counts: "5no 250w", "2 no. 250 W"."""
    half = HALVES.get(walk.padded[to])
    if half is not None and walk.glued(to):
        value = figure.value + half
        return Figure(figure.raw, value, value, value, dated=False), to + 1
    if walk.padded[to] in walk.small.number_behind:
        end = to + 1 + (walk.padded[to + 1] == ".")
        if walk.glued(to) or walk.padded[end][:1].isdigit():
            return figure, end
    return figure, to


def _with_unit(walk: Walk, item: Item, figure: Figure, known: UnitWord | None, money: str) -> bool:
    """Give a figure its value and the unit that may stand at its end; False where letters of a code do.

    ``known``: what unit the word behind it may be.
    """
    to, behind = item.to, walk.padded[item.to]
    if money and behind in walk.loose and loose_amount(walk, item, figure, money):
        walk.currency_to = -9
        return True
    if money or known is None:
        unit, factor, end, peak = _unit(walk, to, behind, money)
    else:  # as Walk.unit, without a call: every other figure comes by here
        follow = walk.padded[to + 1]
        if known[3] or not follow or (follow in DECIDING and behind != '"'):
            unit, factor, peak, _ = known
            end = to + 1 + (follow in OF_CURRENT)
        else:
            unit, factor, end, peak = walk.unit_by_words_behind(to, known, follow)
    if unit in MONEY_UNITS:
        if behind not in _MONEY_SIGNS or money or not _of_the_next(walk, to):
            if money and behind and not walk.gaps[to] and _unreadable(walk, to):
                return False  # "£4o each", where a letter stands for a nought
            item.unit, item.to = unit, end
            _amount(walk, item, figure)
            return True
        unit, end = "", to
    if unit:
        item.unit, item.to, item.peak, item.factor = unit, end, peak, factor
    elif behind and not walk.gaps[to] and _unknown(walk, to):
        return False
    item.value = (figure.large if factor == 1 and unit in _LARGE else figure.value) * factor  # "1,956 m": no thousands
    if factor == _FOOT:
        _inches(walk, item)
    elif factor == _METRE and len(walk.padded[item.to]) == 2:
        _centimetres(walk, item)
    return True


def _of_watts(walk: Walk, item: Item, figure: Figure) -> bool:
    """Gives a figure its unit where it names panels of so many watts: "415er", "400'ers", not "200er Pack"."""
    words, small = walk.padded, walk.small
    end = item.to + (words[item.to] == "'")
    if words[end] not in small.power_behind or not figure.raw.isdigit():
        return False
    low, high = _LIKE_WATTS
    if not low <= figure.value <= high or figure.value % 5 or words[end + 1].startswith(small.packs):
        return False
    item.unit, item.to = "W", end + 1
    return True


def _unreadable(walk: Walk, at: int) -> bool:
    """Do letters that mean nothing, or a letter like a nought, stand directly behind an amount?"""
    return walk.words[at] == "o" or _unknown(walk, at)


def _of_the_next(walk: Walk, at: int) -> bool:
    """Does the sign of a currency belong to the figure behind it, as in "job lot of 8 £400"?"""
    return walk.padded[at + 1][0:1].isdigit() and walk.glued(at + 1) and not walk.glued(at)


def _unit(walk: Walk, to: int, behind: str, money: str) -> tuple[str, float, int, bool]:
    """The unit behind a figure that has a currency before it, or behind which ",-" or a hyphen stands."""
    words = walk.padded
    dashed = dash_behind(walk, to)
    if behind == "-" and walk.glued(to) and walk.glued(to + 1):  # "800-W-inverter"
        to += walk.lexicon.units.get(words[to + 1], _NO_UNIT)[0] in _HYPHENED
    if money and words[to + 1][:1].isdigit() and _begins_another(walk, to, behind):
        return money, 1.0, to, False
    unit, factor, end, peak = walk.unit(to + dashed)
    if unit in CURRENCIES or not (money or dashed):
        return unit, factor, end if unit or not dashed else to, peak
    return money or "money", factor, to + dashed, False


def _begins_another(walk: Walk, at: int, word: str) -> bool:
    """Does the currency behind an amount that has one before it begin the next: "£80 £50", "EUR80 EUR50"?"""
    if not walk.glued(at + 1):
        ended = not walk.padded[at + 2] or walk.padded[at + 2] in DECIDING
        return ended and word not in _MONEY_SIGNS and walk.lexicon.units.get(word, _NO_UNIT)[0] in MONEY_UNITS
    return word in _MONEY_SIGNS or walk.lexicon.units.get(word, _NO_UNIT)[0] in MONEY_UNITS


def _inches(walk: Walk, item: Item) -> None:
    """Inches behind feet: "5ft 4"."""
    word = walk.padded[item.to]
    if word.isdigit() and int(word) < 12:
        item.value += 25.4 * int(word)
        item.to += 1 + (walk.unit(item.to + 1)[1] == 25.4)


def _centimetres(walk: Walk, item: Item) -> None:
    """Two digits directly behind metres: "1m72"."""
    word = walk.padded[item.to]
    if item.unit == "mm" and word.isdigit() and walk.glued(item.to):
        item.value += 10 * int(word)
        item.to += 1


def _amount(walk: Walk, item: Item, figure: Figure) -> None:
    """The value of an amount of money; two digits directly behind its currency are hundredths."""
    end = item.to
    word = walk.padded[end]
    item.value = figure.money
    if len(word) == 2 and word.isdigit() and walk.glued(end):
        item.value += int(word) / 100
        item.to = end + 1
    walk.currency_to = -9


def _code(walk: Walk, at: int) -> int:
    """Behind the model code in which the figure at ``at``, glued to a piece before it, stands; 0: it stands in none."""
    words = walk.words
    before = words[at - 1]
    if before.isalpha():
        known = bool(walk.items) and walk.items[-1].to == at
        told = known or before in walk.small.before_figure or walk.currency_to == at
        return 0 if told else _behind_run(walk, at)
    if before == "#":
        return at + 1
    if before in "-/_" and walk.glued(at - 1) and words[at - 2].isalpha():
        known = bool(walk.items) and walk.items[-1].to == at - 1
        if known and walk.items[-1].what == NUMBER:
            return 0 if walk.items[-1].unit else _behind_run(walk, at)
        return 0 if known and (before == "/" or walk.unit(at + 1)[0]) else _behind_run(walk, at)
    return 0


def _chain(walk: Walk, at: int) -> int:
    """Behind the row of figures that begins at ``at``, as of a date; 0: it begins none."""
    return _behind_run(walk, at) if _chained(walk, at) else 0


def _chained(walk: Walk, at: int) -> bool:
    """Three figures in a row with - or / between (a date, a code), or two points as in a date?"""
    words = walk.words
    raw = words[at]
    if len(raw) > _LONGEST_PLAIN and raw.count(".") == 2 and len(raw.rpartition(".")[2]) in {2, 4}:
        return True
    if at + 4 >= len(words) or words[at + 1] not in {"-", "/"} or words[at + 3] not in {"-", "/"}:
        return False
    if words[at + 1] != words[at + 3]:
        return walk.glued(at + 1)
    return words[at + 1] == "-" and words[at + 4][0].isdigit() and all(map(walk.glued, range(at + 1, at + 5)))


def _unknown(walk: Walk, at: int) -> bool:
    word = walk.words[at]
    return (word.isalpha() and word not in walk.small.after_figure and not walk.lexicon.known[word]
            and word not in walk.lexicon.units)  # fmt: skip


def _behind_run(walk: Walk, at: int) -> int:
    words, to = walk.words, at + 1
    while to - at < _LONGEST_CODE and walk.glued(to) and (words[to] in "-/_" or words[to].isalnum()):
        to += 1
    return to
