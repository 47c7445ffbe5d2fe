"""Is this model code on the public list? Codes are compared as numbers: no maker's or model's name is kept."""

import unicodedata
from hashlib import blake2s

import numpy as np

from service.core.model.panel_list import PanelList, Rows

SHORTEST = 5  # signs of a code that is worth comparing; shorter ones belong to many panels
MOST_WORDS = 3  # of an entry's name, from its end: codes of more words are not told from the maker's name
_MOST_PARTS = 16


def plain_code(text: str) -> str:
    """A code without what people write differently: capitals and digits alone.

    >>> plain_code("hl-330 m/60")
    'HL330M60'
    """
    folded = unicodedata.normalize("NFKC", text[:200]).upper()
    return "".join(sign for sign in folded if sign.isascii() and sign.isalnum())


def is_code(plain: str) -> bool:
    """Is it long enough, with a letter and a digit?"""
    return len(plain) >= SHORTEST and any(c.isdigit() for c in plain) and any(c.isalpha() for c in plain)


def number_of(plain: str) -> int:
    """A number of 32 bits for a plain code. Two codes share one by chance once in four thousand million."""
    return int.from_bytes(blake2s(plain.encode("ascii"), digest_size=4).digest(), "big")


def rows_of_code(text: str, table: PanelList) -> Rows:
    """The rows of the list whose code stands in ``text``, the longest match alone; none where it is not listed.

    What stands before or behind the code (a maker's name) does not matter.
    """
    words = text[:200].split()[:_MOST_PARTS]
    for length in range(min(MOST_WORDS, len(words)), 0, -1):
        plains = {plain_code("".join(words[at : at + length])) for at in range(len(words) - length + 1)}
        found = [_rows(number_of(plain), table) for plain in sorted(plains) if is_code(plain)]
        if any(len(rows) for rows in found):
            return np.unique(np.concatenate(found))
    return np.zeros(0, np.intp)


def _rows(number: int, table: PanelList) -> Rows:
    first, last = np.searchsorted(table.code_number, [number, number + 1])
    return table.code_row[first:last]
