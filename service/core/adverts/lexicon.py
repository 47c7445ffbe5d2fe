"""Which meaning has a row of words in a language? A vocabulary made ready: looked up by its first word.

A word of a phrase stands for itself, or with "*" behind it for all words that begin so. The longest phrase that fits
wins; phrases of one length keep all their meanings.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from sys import intern

from service.core.adverts.asked_roles import roles_of
from service.core.adverts.numerals import Figure, Heading, figure_of
from service.core.adverts.plain import plain_of
from service.core.adverts.role_tables import small_words_of
from service.core.adverts.small_words import SmallWords
from service.core.adverts.tokens import Met, words_of
from service.core.model.advert_words import COMMON, AdvertWords, ByLanguage

_SHORTEST_STEM = 3
_MOST_LANGUAGES = 3  # a word that more languages have tells none of them
_MOST_KEPT, _LONGEST_KEPT = 5_000, 40
_UNITS = frozenset("wvakx")  # letters that stand in adverts of any language
_GOODS = frozenset({"panel_one", "panel_many", "inverter_one", "inverter_many"})
_SETS = ("set_one", "set_many")
_BROKEN = ("d:dead", "s:broken")
_OTHERS = frozenset({"other_goods", "accessory", "for"})
_CARRYING = frozenset({"d:", "n:", "t:", "new", "used", "unused", "part", "q:off_grid"})
WALKED = ("but", "money:", "n:", "cash:", "pair")  # meanings that are more than an item
_UNSURE = frozenset(("W", "V", "mV", "A", "%", "mm"))  # what stands behind them may make another unit of them
JOINING = frozenset("-'./_")  # signs that may stand between the words of a phrase
BEFORE_UNITS = frozenset(",.-")  # signs that may stand between a figure and its unit
WEIGHT_UNIT = 180  # makes 1, 0.6 and their quarters and ninths whole
WEIGHT_BITS = 32  # more than 20,000 signs of words can weigh
# What stands beside figures in many languages.
_NOT_TELLING = (
    "unit ",
    "loose ",
    "no_unit",
    "left",
    "wiring",
    "rated",
    "output_current",
    "apart",
    "inverter_maybe",
    "used_beside",
)
_UNIT, _LOOSE = "unit ", "loose "
_SHORT, _NO_UNIT, _TELLING, _NO_LANGUAGE = "short", "no_unit", "telling", "no_language"

# What a piece of text can be: nothing, a sign that parts clauses, one that ends sentences, a point, a dash, a bracket;
# a figure; or the phrases that begin with it.
NOTHING, PARTS, ENDS, POINT, DASH, OPENS, CLOSES = 0, 1, 2, 3, 4, 5, 6
Phrase = tuple[tuple[str, ...], tuple[str, ...]]  # the rest of its words, and its meanings
Longer = tuple[tuple[str, ...], tuple[str, ...], bool]  # the same; is one of them a number, currency or "but"?


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Phrases:
    """What begins with a word: its own meanings, and longer phrases by their second word, longest first.

    ``stem_heads``: what stems begin with that may follow. ``walked``: of its own meanings one is a number, currency or
    "but".
    """

    alone: tuple[str, ...]
    by_second: dict[str, tuple[Longer, ...]]
    stems: tuple[Longer, ...]
    stem_heads: frozenset[str]
    walked: bool


# A row of meanings alone stands for a word that begins no longer phrase and is no number, currency or "but".
Start = int | Figure | Heading | Phrases | tuple[str, ...]
UnitWord = tuple[str, float, bool, bool]  # its unit and factor; is it one of peak power; does nothing else decide?
_SIGNS = {**dict.fromkeys("!?\n|•;*", ENDS), ".": POINT, **dict.fromkeys(",+", PARTS), "-": DASH,
          **dict.fromkeys("([", OPENS), **dict.fromkeys(")]", CLOSES)}  # fmt: skip


class Known(dict[str, Start]):
    """What a piece of text can be, looked up when it is first met; keeps what it found. Full, it begins anew."""

    def __init__(self, exact: Mapping[str, tuple[Phrase, ...]], stems: Mapping[str, tuple[Phrase, ...]]) -> None:
        super().__init__(_SIGNS)
        self._exact = exact
        self._stems = stems
        lengths: dict[str, set[int]] = {}
        for word in stems:
            if len(word) >= _SHORTEST_STEM:
                lengths.setdefault(word[:_SHORTEST_STEM], set()).add(len(word))
        self._lengths = {head: sorted(of_head) for head, of_head in lengths.items()}  # of the stems that begin so

    def __missing__(self, word: str) -> Start:
        found = _numbered(word, self._exact.get(word, ())) if word[0].isdigit() else _started(self._phrases(word))
        if len(word) <= _LONGEST_KEPT:
            if len(self) >= _MOST_KEPT:
                self.clear()
                self.update(_SIGNS)
            self[word] = found
        return found

    def _phrases(self, word: str) -> tuple[Phrase, ...]:
        found = self._exact.get(word, ())
        for length in self._lengths.get(word[:_SHORTEST_STEM], ()):
            if length <= len(word):
                found += self._stems.get(word[:length], ())
        return found


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The phrases of one language by their first word; ``number``: which of the lexicons it is.

    ``units``: word -> what unit it is; ``short``: words that a point cuts short; ``no_unit``: words that are units only
    where they stand directly behind a figure; ``loose``: words that make an amount of money of a figure only where
    something tells that it is a price; ``small``: those of all languages.
    """

    number: int
    known: Known
    units: dict[str, UnitWord]
    short: frozenset[str]
    no_unit: frozenset[str]
    small: SmallWords
    loose: dict[str, tuple[str, float]]


def _numbered(word: str, phrases: tuple[Phrase, ...]) -> Start:
    """A figure, and the phrases of several words that begin with it; none of those that are numbers themselves."""
    if not word.isascii():
        return NOTHING
    heads = tuple(sorted((one for one in phrases if one[0] and not _walked(one[1])), key=lambda one: -len(one[0])))
    seconds = frozenset(rest[0] for rest, _ in heads)
    return Heading(figure_of(word), seconds, heads) if heads else figure_of(word)


def _walked(meanings: Iterable[str]) -> bool:
    return any(meaning.startswith(WALKED) for meaning in meanings)


def _started(phrases: tuple[Phrase, ...]) -> Start:
    if not phrases:
        return NOTHING
    alone: dict[str, None] = {}
    seconds: dict[str, list[Longer]] = {}
    stems: list[Longer] = []
    for rest, meanings in sorted(phrases, key=lambda phrase: -len(phrase[0])):
        if not rest:
            alone |= dict.fromkeys(meanings)
        elif rest[0].endswith("*"):
            stems.append((rest, meanings, _walked(meanings)))
        else:
            seconds.setdefault(rest[0], []).append((rest, meanings, _walked(meanings)))
    walked = _walked(alone)
    if not seconds and not stems and not walked:
        return tuple(alone)
    heads = frozenset(rest[0][0] for rest, _, _ in stems)
    return Phrases(
        alone=tuple(alone), by_second={word: tuple(longer) for word, longer in seconds.items()}, stems=tuple(stems),
        stem_heads=heads, walked=walked,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The lexicon of each language, and which words tell which language.

    ``telling``: word -> its weights for all ``languages`` in one whole number, ``WEIGHT_BITS`` for each, in units of
    1 / ``WEIGHT_UNIT``, so that the weights of many words are one sum. ``met``: what stood between the
    blanks of texts read before. ``small``: the words that mean nothing of their own.
    """

    languages: tuple[str, ...]
    lexicons: dict[str, Lexicon]
    telling: dict[str, int]
    met: Met
    small: SmallWords


def vocabulary_of(words: AdvertWords) -> Vocabulary:
    """A vocabulary made ready from the tables; done once.

    Raises:
        ValueError: the small words are not as they must be.
    """
    tables, small = words.meanings, small_words_of(words.small_words)
    languages = tuple(language for language in tables if language != COMMON)
    lexicons = {language: _lexicon(number, small, tables[COMMON], tables[language])
                for number, language in enumerate(languages)}  # fmt: skip
    goods = [_goods_in(tables[language]) for language in languages]
    # Where no language tells, goods of any are named.
    lexicons["und"] = _lexicon(len(languages), small, tables[COMMON], tables["en"], *goods)
    telling = _telling(tables, languages)
    return Vocabulary(
        languages=languages, lexicons=lexicons, telling=telling,
        met=Met(telling, roles_of(small), len(lexicons)), small=small,
    )  # fmt: skip


def _goods_in(table: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """What panels, inverters and sets are called in a language, without words for sets of anything; and if broken."""
    goods = {meaning: table.get(meaning, ()) for meaning in sorted(_GOODS)}
    for meaning in _BROKEN:  # short words are other ones elsewhere: "tot"
        goods[meaning] = tuple(word for word in table.get(meaning, ()) if len(word) > _SHORTEST_STEM)
    weak = table.get("set_weak", ())
    return goods | {what: tuple(word for word in table.get(what, ()) if word not in weak) for what in _SETS}


def _lexicon(number: int, small: SmallWords, *tables: Mapping[str, tuple[str, ...]]) -> Lexicon:
    meanings: dict[tuple[str, ...], list[str]] = {}
    apart: dict[str, set[str]] = {_SHORT: set(), _NO_UNIT: set()}
    units: dict[str, tuple[str, float]] = {}
    loose: dict[str, tuple[str, float]] = {}
    for meaning, phrases in (one for table in tables for one in table.items()):
        rows = [row for phrase in phrases for row in spellings_of(phrase)]
        if meaning.startswith((_UNIT, _LOOSE)):
            _, unit, factor = meaning.split(" ")
            (units if meaning.startswith(_UNIT) else loose).update({row[0]: (unit, float(factor)) for row in rows})
        elif meaning in apart:
            apart[meaning].update(row[0] for row in rows)
        elif meaning not in {_TELLING, _NO_LANGUAGE}:
            for row in rows:
                meanings.setdefault(row, []).append(meaning)
    _with_goods(meanings)
    exact: dict[str, list[Phrase]] = {}
    stems: dict[str, list[Phrase]] = {}
    for row, told in meanings.items():
        first, rest = row[0], row[1:]
        place = stems if first.endswith("*") else exact
        place.setdefault(first.rstrip("*"), []).append((rest, tuple(dict.fromkeys(told))))
    return Lexicon(
        number=number,
        known=Known({word: tuple(phrases) for word, phrases in exact.items()},
                    {word: tuple(phrases) for word, phrases in stems.items()}),
        units={word: (unit, factor, word in small.peak_units,
                      unit not in _UNSURE and word != '"' and word not in apart[_NO_UNIT])
               for word, (unit, factor) in units.items()},
        short=frozenset(apart[_SHORT]),
        no_unit=frozenset(apart[_NO_UNIT]),
        small=small,
        loose=loose,
    )  # fmt: skip


def _with_goods(meanings: dict[tuple[str, ...], list[str]]) -> None:
    """Goods that stand within a longer phrase ("cracked panel", "used modules") are named by it too."""
    goods = {row[0]: [one for one in told if one in _GOODS] for row, told in meanings.items() if len(row) == 1}
    for row, told in meanings.items():
        if len(row) > 1 and any(one[:2] in _CARRYING or one in _CARRYING for one in told):
            told += [one for word in row for one in goods.get(word, ()) if one not in told]
        elif len(row) > 1 and "extra" in told:  # "brackets for" are goods, and for something
            told += [one for one in (*meanings.get(row[:1], ()), *meanings.get(row[-1:], ())) if one in _OTHERS]


def spellings_of(phrase: str) -> list[tuple[str, ...]]:
    """The rows of words of a phrase: as written, and with ae, oe, ue for letters with two dots where it has some.

    >>> spellings_of("für Stück*")
    [('fur', 'stuck*'), ('fuer', 'stueck*')]
    """
    dotted = phrase.lower().translate({ord("ä"): "ae", ord("ö"): "oe", ord("ü"): "ue", ord("å"): "aa"})
    rows = [_row(phrase)]
    if dotted != phrase.lower():
        rows.append(_row(dotted))
    if "ß" in phrase:
        rows.append(_row(phrase.replace("ß", "ss")))
    return rows


def _row(phrase: str) -> tuple[str, ...]:
    row: list[str] = []
    for part in phrase.split():
        plain = plain_of(part.rstrip("*")).text
        words = words_of(plain) or ([plain] if len(plain) == 1 else [])
        row += [*words[:-1], words[-1] + "*" * part.endswith("*")] if words else []
    return tuple(map(intern, row))


def _telling(words: ByLanguage, languages: Sequence[str]) -> dict[str, int]:
    """Word -> languages with a weight: words that several languages have tell less, those of all languages nothing."""
    users: dict[str, dict[int, float]] = {}
    nobody = {_row(phrase)[0] for phrase in words[COMMON].get(_NO_LANGUAGE, ())}
    for number, language in enumerate(languages):
        for meaning, phrases in words[language].items():
            for phrase in phrases if not meaning.startswith(_NOT_TELLING) else ():
                row = _row(phrase)
                weight = 1.0 if meaning == _TELLING else 0.6
                if len(row) == 1 and row[0] not in _UNITS and row[0] not in nobody:
                    had = users.setdefault(intern(row[0].rstrip("*")), {})
                    had[number] = max(had.get(number, 0.0), weight)
    known: dict[int, int] = {}  # most words weigh the same as many others: one number for all of them
    packed = ((word, _packed(had)) for word, had in users.items() if len(had) <= _MOST_LANGUAGES)
    return {word: known.setdefault(weights, weights) for word, weights in packed}


def _packed(weights: Mapping[int, float]) -> int:
    """The weights of a word by the number of the language, in one whole number."""
    share = WEIGHT_UNIT / len(weights) ** 2
    return sum(round(share * weight) << (WEIGHT_BITS * number) for number, weight in weights.items())
