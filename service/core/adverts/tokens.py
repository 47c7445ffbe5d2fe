"""Where in a plain text do words, numbers and signs stand?

A text is cut at its blanks; what stands between two of them is cut by one expression of single classes of signs: no
repetition stands inside another one that could share signs with it, so time grows with the text and with nothing else.
"""

import re
from bisect import bisect_right
from functools import cached_property
from itertools import accumulate, chain

# A word, a number with its separators (each followed by a digit), or any one other sign that is no blank.
_PIECE = re.compile(r"[a-z]+|\d{1,15}(?:[.,']\d{1,9}){0,4}|[^a-z\d ]")
_MOST_KEPT = 20_000
_LONGEST_KEPT = 24


class _Chunks(dict[str, tuple[str, ...]]):
    """Pieces of what stands between two blanks. Short ones are kept, and their number is bounded."""

    def __missing__(self, chunk: str) -> tuple[str, ...]:
        pieces = tuple(_PIECE.findall(chunk))
        if len(chunk) <= _LONGEST_KEPT and len(self) < _MOST_KEPT:
            self[chunk] = pieces
        return pieces


class _Apart(dict[int, tuple[bool, ...]]):
    """For so many pieces of one chunk: does a blank stand before each?"""

    def __missing__(self, count: int) -> tuple[bool, ...]:
        flags = (True, *(False,) * (count - 1)) if count else ()
        if count <= _LONGEST_KEPT:
            self[count] = flags
        return flags


_CHUNKS = _Chunks()
_APART = _Apart()


class Pieces:
    """The words, numbers and signs of a plain text, whether a blank stands before each, and where each begins.

    >>> pieces = Pieces("2 x,")
    >>> pieces.words, pieces.apart, pieces.start(2)
    (['2', 'x', ','], [True, True, False, True], 3)
    """

    def __init__(self, text: str) -> None:
        self._chunks = text.split(" ")
        self._parts = list(map(_CHUNKS.__getitem__, self._chunks))
        self.words: list[str] = list(chain.from_iterable(self._parts))
        self.apart: list[bool] = list(chain.from_iterable(map(_APART.__getitem__, map(len, self._parts))))
        self.apart.append(True)  # the end of the text

    @cached_property
    def _behind_chunks(self) -> tuple[list[int], list[int]]:
        """Behind each chunk: how many pieces, how many signs without blanks; reckoned when first asked for."""
        return list(accumulate(map(len, self._parts))), list(accumulate(map(len, self._chunks)))

    def start(self, at: int) -> int:
        """The first sign of a piece."""
        pieces, signs = self._behind_chunks
        chunk = bisect_right(pieces, at)
        before, begun = (pieces[chunk - 1], signs[chunk - 1]) if chunk else (0, 0)
        return begun + chunk + sum(map(len, self._parts[chunk][: at - before]))

    def end(self, at: int) -> int:
        """Behind the last sign of a piece."""
        return self.start(at) + len(self.words[at])


def words_of(text: str) -> list[str]:
    """The pieces that are words or numbers.

    >>> words_of("p.st. 2x")
    ['p', 'st', '2', 'x']
    """
    return [word for word in Pieces(text).words if word[0].isalnum()]
