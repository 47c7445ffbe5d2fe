"""Where in a plain text do words, numbers and signs stand?

One expression of single classes of signs cuts the text: no repetition stands inside another one that could share signs
with it, so time grows with the text and with nothing else.
"""

import re
from functools import cached_property
from itertools import accumulate

# A word, a number with its separators (each followed by a digit), or any one other sign that is no blank.
_PIECE = re.compile(r"([a-z]+|\d{1,15}(?:[.,']\d{1,9}){0,4}|[^a-z\d ])")


class Pieces:
    """The words, numbers and signs of a plain text, the blanks before each, and where each begins.

    >>> pieces = Pieces("2 x")
    >>> pieces.words, pieces.gaps, pieces.starts
    (['2', 'x'], ['', ' ', ''], [0, 2])
    """

    def __init__(self, text: str) -> None:
        self._parts: list[str] = _PIECE.split(text)
        self.words: list[str] = self._parts[1::2]
        self.gaps: list[str] = self._parts[::2]

    @cached_property
    def starts(self) -> list[int]:
        """Where each piece begins; reckoned when it is first asked for."""
        return list(accumulate(map(len, self._parts)))[:-1:2]

    def end(self, at: int) -> int:
        """Behind the last sign of a piece."""
        return self.starts[at] + len(self.words[at])


def words_of(text: str) -> list[str]:
    """The pieces that are words or numbers.

    >>> words_of("p.st. 2x")
    ['p', 'st', '2', 'x']
    """
    return [word for word in Pieces(text).words if word and word[0].isalnum()]
