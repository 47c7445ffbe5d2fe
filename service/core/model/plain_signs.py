"""How does a sign look when case, accents and width are left off? One sign stays one sign, so places do not move."""

import unicodedata
from functools import lru_cache

_SIGNS = {"−": "-", "–": "-", "—": "-", "×": "x", "✕": "x", "˚": "°", "º": "°", "ß": "s", "’": "'", "·": ".",
          "\u2126": "o", "∼": "~", "～": "~", "∙": ".", "\r": "\n", "\u2028": "\n",
          "\u2029": "\n", "²": "2"}  # fmt: skip


@lru_cache(maxsize=2048)
def plain_sign(sign: str) -> str:
    """One sign for one sign: lower case, without accent, full-width forms as usual ones; what is no text, a space.

    >>> plain_sign("É"), plain_sign("－"), plain_sign(chr(0x202e))
    ('e', '-', ' ')
    """
    if sign in _SIGNS:
        return _SIGNS[sign]
    if sign == "\n":
        return sign
    if unicodedata.category(sign)[0] == "C":
        return " "
    plain = unicodedata.normalize("NFKD", sign)[0].lower()
    plain = plain[0] if plain else " "
    return _SIGNS.get(plain, plain)
