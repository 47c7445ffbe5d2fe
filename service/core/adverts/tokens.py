"""Where in a plain text do words, numbers and signs stand?

One expression of single classes of signs: no repetition stands inside another one that could share signs with it, and
none gives back what it took, so time grows with the text and with nothing else.
"""

import re
from itertools import accumulate
from sys import intern

# The blanks before it, then a word, a number with its separators (each followed by a digit), or any one other sign.
_PIECE = re.compile(r" *+(?:[a-z]++|[0-9]{1,15}+(?:[.,'][0-9]{1,9}+){0,4}+|[^ ])")
_LONGEST_MET = 24
MOST_MET = 10_000


class Met(dict[str, str]):
    """Pieces that were met before, with and without the blanks before them: each as one and the same word.

    Full, it begins anew.
    """

    def __missing__(self, piece: str) -> str:
        word = intern(piece.lstrip(" "))  # as the words of the vocabulary are: found without comparing letters
        if len(piece) > _LONGEST_MET:
            return word
        if len(self) > MOST_MET - 2:  # two are put in
            self.clear()
        self[piece] = self[word] = word
        return word


class Pieces:
    """The words, numbers and signs of a plain text, and where each begins.

    ``spaced``: the same with the blanks before them; the first one and the end count as standing behind a blank.
    ``different``: each word once.

    >>> pieces = Pieces("2 x,", Met())
    >>> pieces.words, pieces.spaced, pieces.start(2)
    (['2', 'x', ','], [' 2', ' x', ',', ' '], 3)
    """

    __slots__ = ("_ends", "different", "spaced", "words")

    def __init__(self, text: str, met: Met) -> None:
        self.spaced: list[str] = _PIECE.findall(" " + text.rstrip(" "))
        self.words = list(map(met.__getitem__, self.spaced))
        self.different = frozenset(self.words)
        self.spaced.append(" ")
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
