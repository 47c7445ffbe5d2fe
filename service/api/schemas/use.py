"""How is the use at home answered?"""

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Out


class HabitOut(Out):
    """The best hour to start a machine, and what that gains over its usual hour: honest and small."""

    machine: str = Field(max_length=60)
    best_start: str = Field(description="Wall clock, HH:MM.", max_length=5)
    gain_kwh_per_year: r.Kwh = Field(description="More of the yield used at home than at the usual hour.")


class UseOut(Out):
    """What of the year is used at home, as the meter sees it."""

    self_used_kwh: KwhBandOut
    self_used_share: r.Share = Field(description="Of what is produced.")
    exported_kwh: r.Kwh
    covered_share: r.Share = Field(description="Of what the home needs.")
    demand_kwh: r.Kwh = Field(description="What the home needs in a year.")
