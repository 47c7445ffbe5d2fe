"""What does the text of an advert tell otherwise than a reading that was sent beside it?

The reading counts: it may be what the seller answered since. Said is what both tell and in which they differ.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.core.shortlist.told import Told

# Figures of a reading are rounded, those of a text as they stand there.
_ALIKE = 0.01


@dataclass(frozen=True, slots=True)
class Differs:
    """A field of a reading, with what the text tells of it and what the reading does."""

    field: str
    text: str
    reading: str

    def __str__(self) -> str:
        """For a sentence.

        >>> str(Differs("rated_power_w", "410", "395"))
        'rated_power_w 410 (the reading: 395)'
        """
        return f"{self.field} {self.text} (the reading: {self.reading})"


def differing(text: Told, reading: Told) -> tuple[Differs, ...]:
    """In what they differ; empty where they agree, or where either tells nothing of what the other does.

    >>> differing(Told(advert="a7", kind="panel", price=45.0), Told(advert="a7", kind="panel", price=30.0))
    (Differs(field='price', text='45', reading='30'),)
    """
    if text.kind == "other":  # nothing was recognised, as where a price stands alone
        return tuple(_of_price(text, reading))
    if text.kind != reading.kind:
        return (Differs("kind", text.kind, reading.kind),)
    return (*_words(text, reading), *_of_price(text, reading), *_figures(text, reading))


def _words(text: Told, reading: Told) -> Iterator[Differs]:
    if text.is_offer != reading.is_offer:
        yield Differs("is_offer", _plain(text.is_offer), _plain(reading.is_offer))


def _of_price(text: Told, reading: Told) -> Iterator[Differs]:
    if text.currency is not None and reading.currency is not None and text.currency != reading.currency:
        yield Differs("currency", text.currency, reading.currency)
    bases = {text.basis, reading.basis} - {"unknown"}
    if len(bases) < 2:  # a lot's price and a piece's are two figures of one thing
        yield from _both("price", text.price, reading.price)


def _figures(text: Told, reading: Told) -> Iterator[Differs]:
    yield from _both("quantity_available", text.pieces, reading.pieces)
    inputs = _input(text.inverter), _input(reading.inverter)
    for one, other in ((text.panel, reading.panel), (text.inverter, reading.inverter), inputs):
        for name in one:
            yield from _both(name, one[name], other.get(name))


def _both(name: str, text: Any, reading: Any) -> Iterator[Differs]:
    """Numbers that both tell and that are not about the same."""
    if _is_number(text) and _is_number(reading) and abs(text - reading) > _ALIKE * max(abs(text), abs(reading)):
        yield Differs(name, _plain(text), _plain(reading))


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _input(inverter: Mapping[str, Any]) -> Mapping[str, Any]:
    inputs = inverter.get("inputs") or [{}]
    return dict(inputs[0])


def _plain(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value).lower()
