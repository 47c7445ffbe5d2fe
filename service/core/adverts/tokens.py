"""Where in a plain text do words, numbers and signs stand?

One expression of single classes of signs: no repetition stands inside another one that could share signs with it, and
none gives back what it took, so time grows with the text and with nothing else.
"""

import re
from collections.abc import Collection
from itertools import accumulate
from sys import intern

# The blanks before it, then a word, a number with its separators (each followed by a digit), or any one other sign.
_PIECE = re.compile(r" *+(?:[a-z]++|[0-9]{1,15}+(?:[.,'][0-9]{1,9}+){0,4}+|[^ ])")
_LONGEST_MET = 24
MOST_MET = 10_000


class Run:
    """What stands between two blanks: its words, the same with one blank before the first, and those that tell."""

    __slots__ = ("spaced", "telling", "words")

    def __init__(self, words: list[str], telling: Collection[str]) -> None:
        self.words = tuple(words)
        self.spaced = (" " + words[0], *words[1:]) if words else ()
        self.telling = tuple([word for word in words if word in telling])


class Met(dict[str, Run]):
    """Runs of signs between blanks that were met before, cut into pieces once; each word is one and the same.

    ``telling``: words that tell a language. Full, it begins anew.
    """

    def __init__(self, telling: Collection[str] = ()) -> None:
        super().__init__()
        self._telling = telling

    def __missing__(self, signs: str) -> Run:
        # as the words of the vocabulary are: found without comparing letters
        run = Run([intern(word) for word in _PIECE.findall(signs)], self._telling)
        if len(signs) <= _LONGEST_MET:
            if len(self) >= MOST_MET:
                self.clear()
            self[signs] = run
        return run


class Pieces:
    """The words, numbers and signs of a plain text, and where each begins.

    ``spaced``: the same with the blanks before them; the first one and the end count as standing behind a blank.
    ``different``: each word once; ``telling``: those that tell a language.

    >>> pieces = Pieces("2 x,", Met())
    >>> pieces.words, pieces.spaced, pieces.start(2)
    (['2', 'x', ','], [' 2', ' x', ',', ' '], 3)
    """

    __slots__ = ("_ends", "different", "spaced", "telling", "words")

    def __init__(self, text: str, met: Met) -> None:
        self.words: list[str] = []
        self.spaced: list[str] = []
        words, spaced = self.words, self.spaced
        telling: list[str] = []
        blanks = 0
        for line in text.rstrip(" ").split("\n"):
            if blanks or words:  # not the first line
                spaced.append(" " * blanks + "\n")
                words.append("\n")
                blanks = -1
            for run in map(met.__getitem__, line.split(" ")):
                blanks += 1
                if run.words:
                    words += run.words
                    spaced += run.spaced
                    if blanks != 1:
                        spaced[-len(run.words)] = " " * blanks + run.words[0]
                    if run.telling:
                        telling += run.telling
                    blanks = 0
        self.different = frozenset(words)
        self.telling = frozenset(telling)
        spaced.append(" ")
        self._ends: list[int] = []

    def span(self, at: int, to: int) -> tuple[int, int]:
        """The first sign of piece ``at``, and behind the last one of the piece before ``to``."""
        ends = self._ends
        if not ends:  # a blank before the text counted in; reckoned when first asked for
            ends = self._ends = list(accumulate(map(len, self.spaced)))
        return ends[at] - 1 - len(self.words[at]), ends[to - 1] - 1

    def start(self, at: int) -> int:
        """The first sign of a piece."""
        return self.span(at, at + 1)[0]


NO_PIECES = Pieces("", Met())  # of a field that was left empty


def words_of(text: str) -> list[str]:
    """The pieces that are words or numbers.

    >>> words_of("p.st. 2x")
    ['p', 'st', '2', 'x']
    """
    return [word for word in map(_bare, _PIECE.findall(text)) if word[0].isalnum()]


def _bare(piece: str) -> str:
    return piece.lstrip(" ")
