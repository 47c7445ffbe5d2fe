"""Which meaning has a row of words in a language? A vocabulary made ready: looked up by its first word.

A word of a phrase stands for itself, or with "*" behind it for all words that begin so. The longest phrase that fits
wins; phrases of one length keep all their meanings.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from service.core.adverts.plain import plain_of
from service.core.adverts.tokens import words_of
from service.core.model.advert_words import COMMON, AdvertWords

_SHORTEST_STEM = 3
_MOST_LANGUAGES = 3  # a word that more languages have tells none of them
_MOST_KEPT = 20_000
_UNITS = frozenset("wvakx")  # letters that stand in adverts of any language
_GOODS = frozenset({"panel_one", "panel_many", "inverter_one", "inverter_many"})
_CARRYING = frozenset({"d:", "n:", "t:", "new", "used", "unused"})
_UNIT, _SHORT, _NO_UNIT, _TELLING = "unit ", "short", "no_unit", "telling"

# What a piece of text can be: nothing, a number, a sign that parts clauses, one that ends sentences, a dash, a bracket;
# or the phrases that begin with it.
NOTHING, FIGURE, PARTS, ENDS, DASH, BRACKET = 0, 1, 2, 3, 4, 5
Phrase = tuple[tuple[str, ...], tuple[str, ...]]  # the rest of its words, and its meanings


@dataclass(frozen=True, slots=True)
class Phrases:
    """What begins with a word: its own meanings, and longer phrases by their second word, longest first."""

    alone: tuple[str, ...]
    by_second: Mapping[str, tuple[Phrase, ...]]
    stems: tuple[Phrase, ...]


Start = int | Phrases
_SIGNS = {**dict.fromkeys(".!?\n|•;*", ENDS), **dict.fromkeys(",+", PARTS), **dict.fromkeys("()[]", BRACKET), "-": DASH}


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The phrases of one language by their first word.

    ``units``: word -> unit and factor; ``short``: words that a point cuts short; ``no_unit``: words that are units only
    where they stand directly behind a figure. ``kept`` remembers words that were looked up, and is bounded.
    """

    exact: Mapping[str, tuple[Phrase, ...]]
    stems: Mapping[str, tuple[Phrase, ...]]
    stem_heads: frozenset[str]
    longest_stem: int
    units: Mapping[str, tuple[str, float]]
    short: frozenset[str]
    no_unit: frozenset[str]
    kept: dict[str, Start] = field(default_factory=dict)

    def look_up(self, word: str) -> Start:
        """What a piece of text can be; phrases longest first. Keeps what it found."""
        found: Start
        if not word:
            found = NOTHING
        elif word[0].isdigit():
            found = FIGURE if word.isascii() else NOTHING
        elif word in _SIGNS:
            found = _SIGNS[word]
        else:
            found = _by_second(self._phrases(word)) or NOTHING
        if len(self.kept) < _MOST_KEPT:
            self.kept[word] = found
        return found

    def _phrases(self, word: str) -> tuple[Phrase, ...]:
        found = self.exact.get(word, ())
        if word[:_SHORTEST_STEM] in self.stem_heads:
            for length in range(_SHORTEST_STEM, min(len(word), self.longest_stem) + 1):
                found += self.stems.get(word[:length], ())
        return found


def _by_second(phrases: tuple[Phrase, ...]) -> Phrases | None:
    if not phrases:
        return None
    alone: dict[str, None] = {}
    seconds: dict[str, list[Phrase]] = {}
    stems: list[Phrase] = []
    for rest, meanings in sorted(phrases, key=lambda phrase: -len(phrase[0])):
        if not rest:
            alone |= dict.fromkeys(meanings)
        elif rest[0].endswith("*"):
            stems.append((rest, meanings))
        else:
            seconds.setdefault(rest[0], []).append((rest, meanings))
    return Phrases(tuple(alone), {word: tuple(longer) for word, longer in seconds.items()}, tuple(stems))


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The lexicon of each language, and which words tell which language (index into ``languages``)."""

    languages: tuple[str, ...]
    lexicons: Mapping[str, Lexicon]
    telling: Mapping[str, Sequence[tuple[int, float]]]
    telling_words: frozenset[str]


def vocabulary_of(words: AdvertWords) -> Vocabulary:
    """A vocabulary made ready from the tables; done once."""
    languages = tuple(language for language in words if language != COMMON)
    lexicons = {language: _lexicon(words[COMMON], words[language]) for language in languages}
    lexicons["und"] = _lexicon(words[COMMON], words["en"])
    telling = _telling(words, languages)
    return Vocabulary(
        languages=languages, lexicons=lexicons, telling=telling, telling_words=frozenset(telling)
    )  # fmt: skip


def _lexicon(*tables: Mapping[str, tuple[str, ...]]) -> Lexicon:
    meanings: dict[tuple[str, ...], list[str]] = {}
    apart: dict[str, set[str]] = {_SHORT: set(), _NO_UNIT: set()}
    units: dict[str, tuple[str, float]] = {}
    for meaning, phrases in (one for table in tables for one in table.items()):
        rows = [row for phrase in phrases for row in spellings_of(phrase)]
        if meaning.startswith(_UNIT):
            _, unit, factor = meaning.split(" ")
            units |= {row[0]: (unit, float(factor)) for row in rows}
        elif meaning in apart:
            apart[meaning].update(row[0] for row in rows)
        elif meaning != _TELLING:
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
        exact={word: tuple(phrases) for word, phrases in exact.items()},
        stems={word: tuple(phrases) for word, phrases in stems.items()},
        stem_heads=frozenset(word[:_SHORTEST_STEM] for word in stems),
        longest_stem=max((len(word) for word in stems), default=0),
        units=units, short=frozenset(apart[_SHORT]), no_unit=frozenset(apart[_NO_UNIT]),
    )  # fmt: skip


def _with_goods(meanings: dict[tuple[str, ...], list[str]]) -> None:
    """Goods that stand within a longer phrase ("cracked panel", "used modules") are named by it too."""
    goods = {row[0]: [one for one in told if one in _GOODS] for row, told in meanings.items() if len(row) == 1}
    for row, told in meanings.items():
        if len(row) > 1 and any(one[:2] in _CARRYING or one in _CARRYING for one in told):
            told += [one for word in row for one in goods.get(word, ()) if one not in told]


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
    return tuple(row)


def _telling(words: AdvertWords, languages: Sequence[str]) -> dict[str, list[tuple[int, float]]]:
    """Word -> languages with a weight: words that several languages have tell less."""
    users: dict[str, dict[int, float]] = {}
    for number, language in enumerate(languages):
        for meaning, phrases in words[language].items():
            for phrase in phrases if not meaning.startswith(_UNIT) else ():
                row = _row(phrase)
                weight = 1.0 if meaning == _TELLING else 0.6
                if len(row) == 1 and row[0] not in _UNITS:
                    had = users.setdefault(row[0].rstrip("*"), {})
                    had[number] = max(had.get(number, 0.0), weight)
    return {
        word: [(number, weight / len(had) ** 2) for number, weight in had.items()]
        for word, had in users.items()
        if len(had) <= _MOST_LANGUAGES
    }
