"""Where in a plain text do words, numbers and signs stand?

One expression of single classes of signs cuts the text: no repetition stands inside another one that could share signs
with it, so time grows with the text and with nothing else.
"""

import re
from itertools import accumulate

# A number with its separators (each followed by a digit), a word, or any one other sign; and the blanks behind it.
_PIECE = re.compile(r"(?:\d{1,15}(?:[.,']\d{1,9}){0,4}|[a-z]{1,60}|[^a-z\d]|[a-z\d]) *")


def pieces_of(text: str) -> tuple[list[str], list[str], list[int]]:
    """The pieces of a plain text with the blanks behind them, without them, and where each begins.

    >>> pieces_of("2 x")
    (['2 ', 'x'], ['2', 'x'], [0, 2, 3])
    """
    pieces = _PIECE.findall(text)
    return pieces, [piece.rstrip(" ") for piece in pieces], list(accumulate(map(len, pieces), initial=0))


def words_of(text: str) -> list[str]:
    """The pieces that are words or numbers.

    >>> words_of("p.st. 2x")
    ['p', 'st', '2', 'x']
    """
    return [word for word in pieces_of(text)[1] if word and word[0].isalnum()]
