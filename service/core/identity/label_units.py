"""Which unit stands behind a number on a label, and what is the figure in the unit of our names?"""

from collections.abc import Sequence
from dataclasses import dataclass

from service.core.identity.label_tokens import Token

# Unit as written (tokens run together) -> quantity, and the factor to W, V, A, %, mm, kg, C or their change per kelvin.
_PLAIN = {
    "w": ("W", 1.0), "wp": ("W", 1.0), "watt": ("W", 1.0), "watts": ("W", 1.0), "kw": ("W", 1000.0),
    "kwp": ("W", 1000.0), "wc": ("W", 1.0), "kwc": ("W", 1000.0), "v": ("V", 1.0), "vdc": ("V", 1.0),
    "volt": ("V", 1.0), "volts": ("V", 1.0),
    "kv": ("V", 1000.0), "a": ("A", 1.0), "adc": ("A", 1.0), "amp": ("A", 1.0), "amps": ("A", 1.0),
    "ampere": ("A", 1.0), "ma": ("A", 0.001), "mv": ("V", 0.001), "%": ("%", 1.0), "mm": ("mm", 1.0),
    "cm": ("mm", 10.0),
    "m": ("mm", 1000.0), "kg": ("kg", 1.0), "lb": ("kg", 0.45359237), "lbs": ("kg", 0.45359237),
    "c": ("C", 1.0), "celsius": ("C", 1.0), "in": ("mm", 25.4), "inch": ("mm", 25.4),
}  # fmt: skip
_PER_KELVIN = {"%": ("%/K", 1.0), "v": ("V/K", 1.0), "mv": ("V/K", 0.001), "a": ("A/K", 1.0), "ma": ("A/K", 0.001),
               "w": ("W/K", 1.0)}  # fmt: skip
_KELVIN = {"k", "c"}
_LONGEST = 8


@dataclass(frozen=True, slots=True)
class Unit:
    """A quantity, the factor that brings the figure to it, and how many tokens the unit takes."""

    quantity: str
    factor: float
    length: int


NO_UNIT = Unit("", 1.0, 0)


def unit_at(tokens: Sequence[Token], at: int) -> Unit:
    """The unit that begins at a token: W, V, A, %, mm, kg, C, W/m2, %/K, V/K, A/K or W/K; none where none stands there.

    ``%/°C``, ``%/K``, ``% per K``, ``%/deg C``, ``V DC`` and brackets are read as people write them.
    """
    words = [token.text for token in tokens[at : at + _LONGEST]]
    skipped = 0
    while words and words[0] in {"(", "[", "°", "/"} and skipped < 2 and not (words[0] == "/" and skipped):
        words, skipped = words[1:], skipped + 1
    if not words:
        return NO_UNIT
    first, rest = words[0], words[1:]
    if first in _PER_KELVIN:
        kelvins = _per_kelvin(rest)
        if kelvins:
            quantity, factor = _PER_KELVIN[first]
            return Unit(quantity, factor, skipped + 1 + kelvins)
    if first == "w" and rest[:2] == ["/", "m"]:
        return Unit("W/m2", 1.0, skipped + 3)
    if first not in _PLAIN or (first == "c" and tokens[at].text not in {"°", "c"}):
        return NO_UNIT
    quantity, factor = _PLAIN[first]
    length = skipped + 1 + (1 if rest[:1] in (["dc"], ["p"]) else 0)
    return Unit(quantity, factor, length)


def _per_kelvin(rest: list[str]) -> int:
    """How many tokens of "per kelvin" stand there; 0 where none."""
    used = 0
    if rest[:1] not in (["/"], ["per"], ["pro"], ["par"], ["por"]):
        return 0
    used += 1
    while rest[used : used + 1] in (["°"], ["deg"], ["("], ["o"]) and used < 4:
        used += 1
    return used + 1 if rest[used : used + 1] and rest[used] in _KELVIN else 0
