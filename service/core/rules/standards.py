"""Is this the standard that the card names? Papers are held against it by their whole number, not by letters in common.

A standard's name is read as letters (who published it) and numbers (which one, and its part): "DIN EN 50549-1:2019" is
DIN, EN and 50549, 1. Two names are one standard where all numbers are the same and the letters of one are among those
of the other: a national edition carries letters more. The year of an edition, case, spaces and remarks in brackets
count nothing; a part does: part 10 is not part 1, and a name without a part is not part 1 either.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

_REMARKS = re.compile(r"\([^)]*\)")
_EDITION = re.compile(r":\s*(?:19|20)\d\d(?:-\d\d)?(?:\s*\+\s*A\d+(?::\s*(?:19|20)\d\d)?)*", re.IGNORECASE)
_PART = re.compile(r",?\s*\bpart\s+(?=\d)", re.IGNORECASE)
_NAME = re.compile(r"((?:[A-Z]{1,6}[ /-]+)*[A-Z]{1,6})[ -]*(\d+(?:\s*[-/.]\s*\d+|\s\d+)*)(\s+(?:series|SERIES)\b)?")
_MORE_PARTS = re.compile(r"\s*(?:/|,|&|and)\s*-\s*(\d+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Standard:
    """One standard: its publishers' letters, its number with the part, and whether all parts of the number count."""

    letters: frozenset[str]
    numbers: tuple[int, ...]
    any_part: bool = False

    def is_met_by(self, other: "Standard") -> bool:
        """Is the other one the same standard, or one of this series?"""
        related = self.letters <= other.letters or other.letters <= self.letters
        numbers = other.numbers[: len(self.numbers)] if self.any_part else other.numbers
        return related and numbers == self.numbers


def meets(wanted: str, shown: Iterable[str]) -> bool:
    """Does what was shown meet one expectation of a card?

    Alternatives stand on both sides of " / "; of one alternative every standard has to be shown. An expectation that
    names no standard by number is met by its own words only.

    >>> meets("EN 50549-1", ["DIN EN 50549-1:2019"]), meets("EN 50549-1", ["EN 50549-10"])
    (True, False)
    """
    papers = list(shown)
    named = [standard for paper in papers for standard in standards(paper.upper())]
    return any(_alternative_met(alternative, papers, named) for alternative in wanted.split(" / "))


def standards(text: str) -> tuple[Standard, ...]:
    """The standards that a text in capitals, or written as standards are, names.

    >>> [s.numbers for s in standards("DIN EN 62109-1/-2")]
    [(62109, 1), (62109, 2)]
    """
    plain = _PART.sub("-", _EDITION.sub("", _REMARKS.sub(" ", _dashes(text))))
    found: list[Standard] = []
    for match in _NAME.finditer(plain):
        letters = frozenset(re.split(r"[ /-]+", match[1]))
        numbers = _without_year(tuple(int(number) for number in re.findall(r"\d+", match[2])))
        found.append(Standard(letters, numbers, match[3] is not None))
        end = match.end()
        while len(numbers) > 1 and (more := _MORE_PARTS.match(plain, end)):
            found.append(Standard(letters, (*numbers[:-1], int(more[1]))))
            end = more.end()
    return tuple(found)


def _alternative_met(alternative: str, papers: list[str], named: list[Standard]) -> bool:
    wanted = standards(alternative)
    if wanted:
        return all(any(standard.is_met_by(other) for other in named) for standard in wanted)
    words = _words(alternative)
    return bool(words) and any(f" {words} " in f" {_words(paper)} " for paper in papers)


def _without_year(numbers: tuple[int, ...]) -> tuple[int, ...]:
    """Without the year of the edition where one is written behind the number."""
    return numbers[:-1] if len(numbers) > 1 and 1950 <= numbers[-1] <= 2099 else numbers


def _words(text: str) -> str:
    return " ".join(re.findall(r"[a-z0-9]+", _REMARKS.sub(" ", text).lower()))


def _dashes(text: str) -> str:
    return re.sub("[\u2010-\u2015\u2212]", "-", text)
