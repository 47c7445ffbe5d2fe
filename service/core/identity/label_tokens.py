"""Where in a pasted label do words, numbers and units stand?

The text is first made plain sign by sign (one sign stays one sign), so that a place in the plain text is the same place
in the text as it was sent. Then it is cut into tokens by one expression without repetition inside repetition: time
grows with the text and with nothing else.
"""

import re
from dataclasses import dataclass

from service.core.model.plain_signs import plain_sign

LONGEST_LABEL = 20_000

# A number, a word, or any one other sign. 1.000 and 1,000 stay one token: `number_of` tells what they mean.
_TOKEN = re.compile(r"\d{1,9}(?:[.,]\d{1,6})?|[a-z]{1,40}|[^\sa-z\d]|\n")


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of plain text and where it stands, in code points of the text as sent; ``end`` is behind it."""

    text: str
    start: int
    end: int

    @property
    def is_number(self) -> bool:
        """Does it begin with a digit?"""
        return self.text[0].isdigit()


def tokens_of(text: str) -> list[Token]:
    """All tokens of a label, line ends among them."""
    plain = "".join(map(plain_sign, text[:LONGEST_LABEL]))
    return [Token(match.group(), match.start(), match.end()) for match in _TOKEN.finditer(plain)]


def number_of(text: str, following: str = "") -> float:
    """A number with comma or point; three digits behind it are thousands where the unit asks for a large number.

    >>> number_of("38,5"), number_of("1.000", "v"), number_of("9.325", "a")
    (38.5, 1000.0, 9.325)
    """
    whole, _, rest = text.replace(",", ".").partition(".")
    if len(rest) == 3 and following in {"v", "vdc", "mm"} and whole != "0":
        return float(whole + rest)
    return float(f"{whole}.{rest}" if rest else whole)
