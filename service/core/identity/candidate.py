"""What is one panel that it could be: its build, the range of each rating, what the range rests on?"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from service.core.identity.classes import Span

FoundIn = Literal["label", "public_list", "class"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A rating's least, likeliest and greatest value; ``source``: given, label, public_list or cell_size_class.

    ``entries`` is the number of entries of the public list that the range rests on; 0 for the other sources.
    """

    low: float
    likely: float
    high: float
    source: str
    entries: int = 0

    @property
    def span(self) -> Span:
        """The same as a class's span."""
        return Span(self.likely, self.low, self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One panel that agrees with the facts.

    ``cell`` names the cell size, empty where it is not known. ``by_code``: the model code led to it. ``weight`` is
    how common it is beside the others (no unit); ``entries`` and ``makers`` count the list's.
    """

    found_in: FoundIn
    cells_in_series: int | None
    cell: str
    cell_kind: str | None
    rated_power_w: float
    ranges: Mapping[str, Range]
    weight: float
    entries: int = 0
    makers: int = 0
    by_code: bool = False

    @property
    def key(self) -> tuple[str, int | None, str, bool]:
        """What makes it the same candidate in another answer."""
        return self.found_in, self.cells_in_series, self.cell, self.by_code
