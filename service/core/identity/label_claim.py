"""What is a claim of a label, and what is a name that waits for its figure?"""

from dataclasses import dataclass

from service.core.identity.label_units import NO_UNIT, Unit
from service.core.identity.label_words import FUSE, IMP, ISC, NOMINAL_CELL, POWER, SYSTEM, VMP, VOC, WEIGHT

QUANTITIES = {POWER: "W", VOC: "V", ISC: "A", VMP: "V", IMP: "A", SYSTEM: "V", FUSE: "A", WEIGHT: "kg",
              NOMINAL_CELL: "C"}  # fmt: skip
ELECTRIC = frozenset({POWER, VOC, ISC, VMP, IMP})
POINT = frozenset({VOC, ISC, VMP, IMP})
NOT_AT_STC, UNCLEAR, ILLEGIBLE = "not_at_stc", "unclear_which", "illegible_figure"
LIMIT, INVERTERS, NO_RATING = "limit_not_rating", "not_the_panels", "not_a_rating"


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One thing that the label says: ``value`` in ``unit``, in the words from ``start`` to ``end`` (code points).

    ``what`` is a field of a panel, or ``voc_coefficient``, ``isc_coefficient``, ``power_coefficient`` with its unit,
    ``nominal_cell_c``, ``power_tolerance_low``, ``power_tolerance_high``. ``doubt``: why it is not to be taken: it
    holds at other conditions, may belong to another name, has letters in its figure, is a limit, an inverter's, or no
    printed rating; empty where nothing speaks against it. ``named``: False where only the unit tells what it is.
    ``column`` of ``columns``: which model's it is, from 1, where the sheet has several.
    """

    what: str
    value: float | str
    unit: str
    words: str
    start: int
    end: int
    doubt: str = ""
    named: bool = True
    column: int = 1
    columns: int = 1

    @property
    def at_standard(self) -> bool:
        """Does the figure hold at standard test conditions, as far as the label tells?"""
        return self.doubt != NOT_AT_STC

    @property
    def clear(self) -> bool:
        """Is it the only name's figure?"""
        return self.doubt != UNCLEAR


@dataclass(slots=True)
class Name:
    """A name that waits for its figure: tokens ``at`` up to ``behind`` on a line; ``unit`` in brackets behind it."""

    what: str
    at: int
    behind: int
    line: int
    unit: Unit = NO_UNIT
    doubt: str = ""
    answered: bool = False

    def takes(self, unit: Unit) -> bool:
        """Does a figure with this unit, or with none, suit?"""
        wanted = QUANTITIES.get(self.what)
        return wanted is not None and (unit.quantity or self.unit.quantity or wanted) == wanted
