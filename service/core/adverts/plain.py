"""What does a person see of a text as it was sent, and where did each sign stand?

Small steps: marks that nobody sees go, tags and comments become spaces, character references become their signs, fancy
digits and look-alike letters what they show. Wherever signs went, a list of places leads back to the text as sent.
"""

import re
import unicodedata
from collections.abc import Sequence
from html import unescape

from service.core.model.plain_signs import plain_sign

HALVES = {"½": 0.5, "¼": 0.25, "¾": 0.75}
GONE = "\x00"  # stands for a sign that is taken off; no plain sign is one
_LETTERS = {"ł": "l", "ø": "o", "đ": "d", "æ": "a", "œ": "o", "þ": "t", "ð": "d", "ı": "i",
            "а": "a", "в": "b", "е": "e", "і": "i", "к": "k", "м": "m", "н": "h", "о": "o", "р": "p", "с": "c",
            "т": "t", "у": "y", "х": "x", "ѕ": "s", "ј": "j", "ο": "o", "α": "a", "ν": "v", "ρ": "p", "κ": "k",
            "ε": "e", "ι": "i", "τ": "t", "υ": "u", "χ": "x", "η": "n", "μ": "m", "`": "'", "´": "'", "‘": "'",
            "“": '"', "”": '"', "„": '"', "‚": ",", "…": "."}  # fmt: skip
# What no seller types: marks that turn the reading direction or hide between letters, digits and letters of
# mathematical, circled and full-width alphabets, control characters; and Greek or Cyrillic within a Latin word.
_PRETENDS = re.compile("[\u200b\u2060\u202a-\u202e\u2066-\u2069\U0001d400-\U0001d7ff\u2460-\u24ff\u2776-\u2793"
                       "\uff10-\uff5a\u20e3\0-\x08\x0b\x0c\x0e-\x1f]")  # fmt: skip
_OTHER_LETTERS = re.compile("[\u0400-\u04ff\u0391-\u03a8\u03b1-\u03bb\u03bd-\u03c9]")
_MIXED = re.compile(f"[a-zA-Z]{_OTHER_LETTERS.pattern}|{_OTHER_LETTERS.pattern}[a-zA-Z]")
# All other signs are themselves, or their small letter.
_OF_ASCII = bytes(number for number in range(128) if number == 10 or (32 <= number < 127 and number != 96))
_NOT_SPECIAL = frozenset("€£")
_MOST_DIFFERENT = 64
_MOST_KEPT = 4096
_LONGEST_REFERENCE = 12
_NEVER_SHOWN = ("script", "style")
_BREAKS = ("<br", "<p", "</p", "<li", "<div", "</div", "<tr", "<h")


class _Signs(dict[int, str]):
    """A table for ``str.translate`` that is filled as signs come."""

    def __missing__(self, number: int) -> str:
        plain = _plain(chr(number))
        if len(self) < _MOST_KEPT:
            self[number] = plain
        return plain


def _plain(sign: str) -> str:
    lower = sign.lower()
    if lower in _LETTERS:
        return _LETTERS[lower]
    if sign in HALVES:  # no digit: "32½" is not 321
        return sign
    if sign in "\t\n\r\u2028\u2029":
        return "\n" if sign != "\t" else " "
    kind = unicodedata.category(sign)
    if kind in {"Cf", "Cc", "Mn", "Me"}:
        return GONE
    if kind in {"Nd", "No"} and unicodedata.decimal(sign, None) is not None:
        return str(unicodedata.decimal(sign))
    return plain_sign(sign)


_SIGNS = _Signs()


class Plain:
    """A text as a person reads it, in small letters.

    ``places``: for each sign of ``text`` its code point in the text as sent, one more for the end; None where nothing
    went. ``shown``: the same signs before they were made small. ``disguised``: there was markup, or signs that hide or
    pretend.
    """

    __slots__ = ("disguised", "places", "shown", "text")

    def __init__(self, text: str, shown: str, places: Sequence[int] | None, *, disguised: bool) -> None:
        self.text = text
        self.shown = shown
        self.places = places
        self.disguised = disguised

    def saying(self, text: str) -> "Plain":
        """The same with another text of the same length."""
        return Plain(text, self.shown, self.places, disguised=self.disguised)


_NOTHING = Plain("", "", None, disguised=False)


def plain_of(sent: str) -> Plain:
    r"""A text as sent -> what a person sees of it. Time is linear in the text; any text is harmless.

    >>> plain_of("4\u200b10&nbsp;Wp <b>NEU</b>").text.split()
    ['410', 'wp', 'neu']
    """
    if not sent:
        return _NOTHING
    places: Sequence[int] | None = None
    marked, seen = False, sent
    if "<" in seen:
        seen, marked = _untagged(seen)
    if "&" in seen:
        seen, places = _referenced(seen)
    sent_bytes = seen.encode("utf-8", "surrogatepass")
    special = _special(sent_bytes)
    if not special:
        return Plain(seen.lower(), seen, places, disguised=marked)
    hidden = marked or _PRETENDS.search(special) is not None
    hidden = hidden or (_OTHER_LETTERS.search(special) is not None and _MIXED.search(seen) is not None)
    text = _signs(seen, sent_bytes, special)
    if GONE not in text:
        return Plain(text, seen, places, disguised=hidden)
    stood: Sequence[int] = range(len(text) + 1) if places is None else places
    told: list[int] = []
    shown, at = [], 0
    for kept in text.split(GONE):
        told += stood[at : at + len(kept)]
        shown.append(seen[at : at + len(kept)])
        at += len(kept) + 1
    told.append(stood[len(text)])
    return Plain(text.replace(GONE, ""), "".join(shown), told, disguised=hidden)


def _special(text: bytes) -> str:
    """The different signs of a text that may show another one. Bytes go faster than any expression."""
    others = text.translate(None, _OF_ASCII)
    return "".join(frozenset(others.decode("utf-8", "surrogatepass")) - _NOT_SPECIAL) if others else ""


def _signs(text: str, sent: bytes, special: str) -> str:
    """One plain sign for each sign. Few different special ones are replaced one by one, many all at once.

    ``sent``: the text as bytes; no plain sign is a capital, so letters of ASCII alone are to be made small.
    """
    if len(special) > _MOST_DIFFERENT:
        return text.translate(_SIGNS)
    small = sent.lower().decode("utf-8", "surrogatepass")
    for sign in special:
        plain = _SIGNS[ord(sign)]
        if plain != sign:
            if plain in special and _SIGNS[ord(plain)] != plain:  # it is not replaced again, in whichever order
                return text.translate(_SIGNS)
            small = small.replace(sign, plain)
    return small


def _untagged(text: str) -> tuple[str, bool]:
    """Tags, comments and what scripts hold as spaces of the same length; and whether there were any."""
    pieces: list[str] = []
    done, at, tags = 0, text.find("<"), 0
    low = text.lower()
    low = low if len(low) == len(text) else text  # a few capitals grow when made small
    while at >= 0:
        end = _end_of_tag(low, at)
        if end < 0:
            break
        if end > at:
            tags += 1
            pieces += (text[done:at], "\n" if low.startswith(_BREAKS, at) else " ", " " * (end - at - 1))
            done = end
        at = text.find("<", max(end, at + 1))
    return "".join((*pieces, text[done:])), tags > 0


def _end_of_tag(text: str, at: int) -> int:
    """Behind the tag, comment or script that begins at ``at``; ``at`` where it is a mere sign; -1: no more tags."""
    if text.startswith("<!--", at):
        end = text.find("-->", at)
        return len(text) if end < 0 else end + 3
    if not text[at + 1 : at + 2].isalpha() and text[at + 1 : at + 2] not in {"/", "!"}:
        return at
    end = text.find(">", at)
    if end < 0:
        return -1
    name = text[at + 1 : at + 7]
    for never in _NEVER_SHOWN:
        if name.startswith(never):
            close = text.find(f"</{never}", at)
            closed = text.find(">", close) if close >= 0 else -1
            return len(text) if closed < 0 else closed + 1
    return end + 1


def _referenced(text: str) -> tuple[str, Sequence[int] | None]:
    """Character references as the signs that they mean, with the places where the signs stood."""
    pieces: list[str] = []
    places: list[int] = []
    done, at = 0, text.find("&")
    while at >= 0:
        end = text.find(";", at, at + _LONGEST_REFERENCE)
        sign = unescape(text[at : end + 1]) if end > 0 else ""
        if len(sign) == 1:
            pieces += (text[done:at], sign)
            places += range(done, at)
            places.append(at)
            done = end + 1
        at = text.find("&", at + 1)
    if not done:
        return text, None
    pieces.append(text[done:])
    places += range(done, len(text) + 1)
    return "".join(pieces), places
