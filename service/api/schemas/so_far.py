"""How is told what has been paid back so far?"""

from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.base import Out, Text
from service.api.schemas.rounding import for_people
from service.api.words import say
from service.core.worth import SoFar


class SoFarOut(Out):
    """Energy and money of the time that a log spans, beside what was promised for it."""

    years: r.YearsLong
    logged_kwh: r.Kwh
    promised_kwh: r.Kwh = Field(description="What the year told above gives in that time.")
    logged_share: r.Share | None = Field(description="Logged over promised; gaps of the log count as nothing.")
    saved: r.Money = Field(description="At what a kWh is worth in the first year.")
    promised_saved: r.Money
    paid_back_share: r.Share | None = Field(description="Of the outlay; null where none was given.")
    unpaid: r.Money | None = Field(description="Of the outlay; below nought where more was saved.")
    text: Text

    @classmethod
    def of(cls, found: SoFar, logged_kwh: float, currency: str) -> Self:
        """With its sentence."""
        facts = {
            "saved": for_people(found.saved),
            "promised": for_people(found.promised_saved),
            "currency": currency,
            "paid_pct": None if found.paid_back_share is None else 100.0 * found.paid_back_share,
            "years": found.years,
        }
        key = "so_far" if found.paid_back_share is None else "so_far.of_outlay"
        return cls.from_core(found, logged_kwh=logged_kwh, text=say("payback", key, facts))
