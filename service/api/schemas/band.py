"""How sure is a figure, in an answer? The less happy end, the middle, the happier end."""

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.base import Out

_CAUTIOUS = "The outcome that 90 % of cases do better than."
_MIDDLE = "The outcome that half of the cases do better than."
_HOPEFUL = "The outcome that 10 % of cases do better than."


class KwhBandOut(Out):
    """A band of energy."""

    cautious: r.Kwh = Field(description=_CAUTIOUS)
    middle: r.Kwh = Field(description=_MIDDLE)
    hopeful: r.Kwh = Field(description=_HOPEFUL)


class MoneyBandOut(Out):
    """A band of money."""

    cautious: r.Money = Field(description=_CAUTIOUS)
    middle: r.Money = Field(description=_MIDDLE)
    hopeful: r.Money = Field(description=_HOPEFUL)


class YearsBandOut(Out):
    """A band of years; a member is null where that outcome never comes."""

    cautious: r.YearsLong | None = Field(description=_CAUTIOUS)
    middle: r.YearsLong | None = Field(description=_MIDDLE)
    hopeful: r.YearsLong | None = Field(description=_HOPEFUL)
