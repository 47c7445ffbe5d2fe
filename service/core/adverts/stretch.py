"""How far does a clause or a sentence go on both sides of some pieces?"""

from collections.abc import Set


def stretch_around(tokens: list[str], at: int, to: int, reach: int, ends: Set[str]) -> tuple[int, int]:
    """From and to which piece it goes, up to a sign of ``ends`` and ``reach`` pieces on either side.

    >>> stretch_around(["fence", "broken", ".", "one", "panel", "broken", "."], 5, 6, 4, frozenset("."))
    (3, 6)
    """
    low, high = at, to
    while low > max(at - reach, 0) and tokens[low - 1] not in ends:
        low -= 1
    while high < min(to + reach, len(tokens)) and tokens[high] not in ends:
        high += 1
    return low, high
