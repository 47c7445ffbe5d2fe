"""How is the use at home answered?"""

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Out


class UseOut(Out):
    """What of the year is used at home, as the meter sees it."""

    self_used_kwh: KwhBandOut
    self_used_share: r.Share = Field(description="Of what is produced.")
    exported_kwh: r.Kwh
    covered_share: r.Share = Field(description="Of what the home needs.")
    demand_kwh: r.Kwh = Field(description="What the home needs in a year.")
