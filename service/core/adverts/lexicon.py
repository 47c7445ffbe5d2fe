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
_MOST_KEPT = 20_000
_UNITS = frozenset("wvakx")  # letters that stand in adverts of any language

# Rest of the words, and the meanings.
Phrase = tuple[tuple[str, ...], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The phrases of one language by their first word; ``kept`` remembers words that were looked up, and is bounded."""

    exact: Mapping[str, tuple[Phrase, ...]]
    stems: Mapping[str, tuple[Phrase, ...]]
    stem_heads: frozenset[str]
    longest_stem: int
    kept: dict[str, tuple[Phrase, ...]] = field(default_factory=dict)

    def starting(self, word: str) -> tuple[Phrase, ...]:
        """The phrases that can begin with a word, longest first."""
        known = self.kept.get(word)
        if known is None:
            known = self._found(word)
            if len(self.kept) < _MOST_KEPT:
                self.kept[word] = known
        return known

    def _found(self, word: str) -> tuple[Phrase, ...]:
        found = self.exact.get(word, ())
        if word[:_SHORTEST_STEM] in self.stem_heads:
            for length in range(_SHORTEST_STEM, min(len(word), self.longest_stem) + 1):
                found += self.stems.get(word[:length], ())
        return tuple(sorted(found, key=lambda phrase: -len(phrase[0])))


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The lexicon of each language, and which words tell which language (index into ``languages``)."""

    languages: tuple[str, ...]
    lexicons: Mapping[str, Lexicon]
    telling: Mapping[str, Sequence[tuple[int, float]]]


def vocabulary_of(words: AdvertWords) -> Vocabulary:
    """A vocabulary made ready from the tables; done once."""
    languages = tuple(language for language in words if language != COMMON)
    lexicons = {language: _lexicon(words[COMMON], words[language]) for language in languages}
    lexicons["und"] = _lexicon(words[COMMON], words["en"])
    return Vocabulary(languages=languages, lexicons=lexicons, telling=_telling(words, languages))


def _lexicon(*tables: Mapping[str, tuple[str, ...]]) -> Lexicon:
    meanings: dict[tuple[str, ...], list[str]] = {}
    for table in tables:
        for meaning, phrases in table.items():
            if meaning != "telling":
                for phrase in phrases:
                    for row in spellings_of(phrase):
                        meanings.setdefault(row, []).append(meaning)
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
    )


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
    starred = [part.endswith("*") for part in phrase.split()]
    row: list[str] = []
    for part, star in zip(phrase.split(), starred, strict=True):
        words = words_of(plain_of(part.rstrip("*")).text)
        row += [*words[:-1], words[-1] + ("*" if star else "")] if words else []
    return tuple(row)


def _telling(words: AdvertWords, languages: Sequence[str]) -> dict[str, list[tuple[int, float]]]:
    """Word -> languages with a weight: words that several languages have tell less."""
    users: dict[str, dict[int, float]] = {}
    for number, language in enumerate(languages):
        for meaning, phrases in words[language].items():
            for phrase in phrases:
                row = _row(phrase)
                weight = 1.0 if meaning == "telling" else 0.6
                if len(row) == 1 and not row[0].endswith("*") and row[0] not in _UNITS:
                    had = users.setdefault(row[0], {})
                    had[number] = max(had.get(number, 0.0), weight)
    return {word: [(number, weight / len(had) ** 2) for number, weight in had.items()] for word, had in users.items()}
