"""Which words mean something, and which figures with which units stand between them?

One walk over the words of a field. Most words mean nothing and cost one look into a table.
"""

from collections.abc import Sequence
from itertools import compress, islice

from service.core.adverts.lexicon import (
    CLOSES,
    DASH,
    ENDS,
    JOINING,
    NOTHING,
    OPENS,
    PARTS,
    POINT,
    WALKED,
    Lexicon,
    Phrases,
    Start,
)
from service.core.adverts.measures import measured
from service.core.adverts.numerals import Figure, Heading
from service.core.adverts.plain import Plain
from service.core.adverts.tokens import Pieces, Run
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item, Walk

MONEY, CASH = "money:", "cash:"
SPELLED = "n:"
_BREAK, _PAIR = "but", "pair"
_HUNDRED = 100
_SHORTENED = frozenset(("voc", "isc", "vmp", "imp", "weight", "power", "size", "length", "width", "max_in", "tracking"))
_MOST_TELLING = 4000  # of one field: ten times what the longest honest text has
_DEEPEST = 8
_WHOLE_WORD = 4  # signs


class Lexed:
    """A field's items in order, and its pieces."""

    __slots__ = ("items", "pieces")

    def __init__(self, items: list[Item], pieces: Pieces) -> None:
        self.items = items
        self.pieces = pieces


def lexed(  # noqa: C901, PLR0912 - one row of kinds, gone through for each word
    plain: Plain, pieces: Pieces, lexicon: Lexicon, number: int, base: int = 0, flood: Sequence[bool] | None = None
) -> Lexed:
    """The items of a plain text cut into pieces, field ``number``; sentences and clauses count from ``base`` on.

    Pieces of a ``flood`` are passed over, and of what is no flood the first 4,000 that may mean something are read.
    """
    words = pieces.words
    if not words:
        return Lexed([], pieces)
    walk, which, bare = Walk(pieces, plain.shown, lexicon, number, base), lexicon.number, 1 << lexicon.number
    padded, found = walk.padded, walk.items
    heard = _heard(pieces, lexicon, flood) if flood is not None or len(words) > _MOST_TELLING else None
    at, done = -1, 0
    for run in pieces.runs:
        if run.bare & bare:
            at += run.count
            continue
        if (starts := run.starts[which]) is None and not (starts := _starts(run, lexicon, at + 1, heard)):
            at += run.count
            continue
        for start in starts:
            at += 1
            if at < done or (heard is not None and at not in heard):
                continue
            if type(start) is int:  # as most are
                if start == NOTHING:
                    continue
                if start == PARTS:
                    walk.clauses = walk.clause = walk.clauses + 1
                elif start == ENDS or (start == POINT and not _cuts_short(walk, at, padded[at + 1])):
                    walk.new_sentence()
                elif start > POINT:
                    _sign(walk, at, start)
            elif type(start) is Figure:
                done = measured(walk, at, start)
            elif type(start) is Phrases:
                follow = padded[at + 1]
                if (
                    _longer(padded[at + 2], start) if follow in JOINING
                    else follow in start.by_second or (start.stems and follow[:1] in start.stem_heads)
                ):  # fmt: skip
                    done = _phrase(walk, at, start)
                elif start.walked:
                    done = _meant(walk, start.alone, at, at + 1)
                else:
                    for meaning in start.alone:
                        found.append(Item(meaning, at, at + 1, walk.sentence, walk.clause, number))
            elif type(start) is tuple:
                for meaning in start:
                    found.append(Item(meaning, at, at + 1, walk.sentence, walk.clause, number))
            elif type(start) is Heading:
                done = _headed(walk, at, start)
    return Lexed(found if flood is None else [one for one in found if not any(flood[one.at : one.to])], pieces)


def _heard(pieces: Pieces, lexicon: Lexicon, flood: Sequence[bool] | None) -> set[int]:
    """The first places of what may mean something and is no flood."""
    telling = compress(range(len(pieces.words)), map(lexicon.known.__getitem__, pieces.words))
    return set(islice(telling if flood is None else (at for at in telling if not flood[at]), _MOST_TELLING))


def _starts(run: Run, lexicon: Lexicon, first: int, heard: set[int] | None) -> tuple[object, ...]:
    """What each word of a run can be in a lexicon, kept with the run; none where none of them means anything."""
    if heard is not None and heard.isdisjoint(range(first, first + run.count)):
        return ()
    starts: tuple[object, ...] = tuple(map(lexicon.known.__getitem__, run.words))
    if not any(starts):
        run.bare |= 1 << lexicon.number
        return ()
    if run.starts is run.unread:
        run.starts = run.unread[:]
    run.starts[lexicon.number] = starts
    return starts


def _headed(walk: Walk, at: int, heading: Heading) -> int:
    """What a phrase means that begins with a figure, "2nd hand", "12 V inverter"; the figure is read all the same."""
    follow = walk.padded[at + 1]
    if follow in heading.seconds:
        for rest, meanings in heading.phrases:
            behind = _fits(walk.words, at + 1, rest)
            if behind:
                for meaning in meanings:
                    _told(walk, meaning, at, behind)
                break
    return measured(walk, at, heading.figure)


def _sign(walk: Walk, at: int, kind: Start) -> None:
    """A dash or a bracket."""
    if kind == DASH:
        if at and not walk.glued(at) and not walk.glued(at + 1):
            walk.new_clause()
    elif kind == CLOSES and walk.outer:
        walk.clause = walk.outer.pop()
    else:
        if kind == OPENS and len(walk.outer) < _DEEPEST:
            walk.outer.append(walk.clause)
        walk.new_clause()


def _cuts_short(walk: Walk, at: int, after: str) -> bool:
    """Is it a point within or behind a shortened word? ``after``: what stands behind it."""
    if not walk.gaps[at + 1]:
        return after != "\n"
    if not after:
        return False
    before = walk.padded[at - 1]  # nothing before the first one
    if len(before) > 1 and before not in walk.lexicon.short and not after[0].isdigit():
        return False
    last = walk.items[-1] if walk.items else None
    if last is not None and last.to != at:
        last = None
    if after[0].isdigit() and (before == "." or (last is not None and last.what in _SHORTENED)):
        unit = walk.units.get(walk.padded[at + 2])  # "Current ...... 13.1", "Leerlaufspg. 41,0 V"
        return unit is None or unit[0] not in MONEY_UNITS
    if before not in walk.lexicon.short:  # "350 kr. pr. stk." goes on, "350 kr. Fetch" ends
        unmeasured = last is None or not last.unit
        return unmeasured and len(before) == 1 and before.isalpha() and before not in "wvak"
    return last is None or not last.unit or not walk.shown[walk.pieces.start(at + 1) :][:2].istitle()


def _longer(follow: str, start: Phrases) -> bool:
    """May a longer phrase go on with a word behind a joining sign?"""
    return follow in start.by_second or follow[:1] in start.stem_heads or (follow in JOINING and bool(start.stems))


def _phrase(walk: Walk, at: int, start: Phrases) -> int:
    """The longest phrase that begins at ``at`` and goes on, else what its first word means; what to go on with."""
    words, to = walk.words, at + 1
    after, follow = to, walk.padded[to]
    if follow in JOINING and walk.padded[to + 1]:
        after, follow = to + 1, walk.padded[to + 1]
    meanings, walked = start.alone, start.walked
    longer = start.by_second.get(follow, ())
    if start.stems:
        longer += start.stems
    if after > to and words[to] == "." and _ends(walk, to):
        longer = ()
    for rest, told, more in longer:
        two = len(rest) == 1 and rest[0] == follow and follow not in JOINING  # all stands there
        behind = after + 1 if two else _fits(words, after, rest)
        if behind:
            to, meanings, walked = behind, told, more
            break
    if walked:
        return _meant(walk, meanings, at, to)
    for meaning in meanings:
        walk.items.append(Item(meaning, at, to, walk.sentence, walk.clause, walk.number))
    return to


def _ends(walk: Walk, at: int) -> bool:
    """Does a point behind a whole word end a sentence, though what follows would go on with a phrase: "new. Price"?"""
    before = walk.words[at - 1]
    return walk.gaps[at + 1] > 0 and len(before) >= _WHOLE_WORD and before not in walk.lexicon.short


def _meant(walk: Walk, meanings: Sequence[str], at: int, to: int) -> int:
    """Meanings of pieces ``at`` up to ``to``, of which some may be more than an item; what to go on with."""
    for meaning in meanings:
        if not meaning.startswith(WALKED):
            _told(walk, meaning, at, to)
        elif meaning == _BREAK:
            walk.new_clause()
        elif meaning[:6] == MONEY:
            walk.currency, walk.currency_to = meaning[6:], to
        elif meaning[:2] == SPELLED:
            to = _spelled(walk, float(meaning[2:]), at, to)
        elif meaning == _PAIR:  # "ein Paar" are two, "ein paar" are some
            sign = walk.pieces.start(to - 1)
            two = walk.shown[sign : sign + 1].isupper()
            to = _spelled(walk, 2.0, at, to) if two else _told(walk, "several", at, to)
        elif meaning[:5] == CASH:
            _, currency, amount = meaning.split(":")
            item = Item(NUMBER, at, to, walk.sentence, walk.clause, walk.number)
            item.value, item.unit = float(amount), currency
            walk.items.append(item)
        else:
            _told(walk, meaning, at, to)
    return to


def _told(walk: Walk, meaning: str, at: int, to: int) -> int:
    walk.items.append(Item(meaning, at, to, walk.sentence, walk.clause, walk.number))
    return to


def _spelled(walk: Walk, value: float, at: int, to: int) -> int:
    """A number word is a figure, or goes on with one ("three hundred and ten"); with its unit where one follows."""
    joined = len(walk.items) > 1 and walk.items[-1].what == "plus" and walk.items[-2].to == at - 1
    before = walk.items[-1 - joined] if walk.items else None
    if (
        before is not None
        and before.spelled
        and not before.unit
        and at - before.to <= 1
        and _goes_on(before.value, value)
    ):
        item = before
        del walk.items[len(walk.items) - joined :]
        item.value = item.value * _HUNDRED if value == _HUNDRED else item.value + value
        item.to = to
    else:
        item = Item(NUMBER, at, to, walk.sentence, walk.clause, walk.number)
        item.value, item.spelled = value, True
        walk.items.append(item)
    if to < len(walk.words) and not walk.glued(to):
        unit, factor, behind, peak = walk.unit(to)
        if unit and len(walk.words[to]) > 1 and (item.value > 1 or unit == "y"):
            item.unit, item.value, item.to, item.peak, item.factor = unit, item.value * factor, behind, peak, factor
            return behind
    return to


def _goes_on(before: float, value: float) -> bool:
    """Do two number words make one number?"""
    if value == _HUNDRED:
        return 1 < before < 10
    return (before >= _HUNDRED and before % _HUNDRED == 0 and value < _HUNDRED) or (
        20 <= before < _HUNDRED and before % 10 == 0 and value < 10
    )


def _fits(words: list[str], at: int, rest: tuple[str, ...]) -> int:
    """Behind the words of a phrase that go on at ``at``; 0 where they do not. Joining signs are passed over."""
    count = len(words)
    for want in rest:
        if at + 1 < count and words[at] in JOINING:
            at += 1
        if at >= count:
            return 0
        have = words[at]
        if have != want and not (want[-1] == "*" and have.startswith(want[:-1])):
            return 0
        at += 1
    return at
