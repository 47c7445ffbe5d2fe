"""What is one row of the table of defaults?"""

from dataclasses import dataclass

from service.core.model.assumption import Json

PUBLIC_LIST = (
    "public panel list of the California Energy Commission, edition of 2019 as packaged with pvlib; "
    "low and high hold 95 % of its panels of this kind"
)
TRADE = "trade figures, from memory; low and high are meant to hold 95 % of cases"
WARY = "our own choice, on the wary side"
NEUTRAL = "our own choice: nothing is added that nobody mentioned"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What is taken where the caller gives nothing.

    ``pointer`` is an RFC 6901 pointer with ``*`` for each entry of a list. ``value`` is a constant, or None where
    ``rule`` says how the value is found (or where the thing is then simply not there). ``code`` is the reason, for
    the words. ``low`` and ``high`` bound about 95 % of cases. ``moves_energy``: does the year's energy depend on it?
    """

    pointer: str
    code: str
    value: Json = None
    rule: str = ""
    unit: str = ""
    source: str
    low: float | None = None
    high: float | None = None
    moves_energy: bool = False
