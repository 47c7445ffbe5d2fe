"""How is a small battery written in a request, and how is it answered: without it and with it, side by side?"""

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In


class StorageIn(In):
    """A small battery to be looked at beside the set. Its price is kept apart from the set's outlay."""

    usable_kwh: f.UsableKwh
    coupling: f.Coupling | None = Field(
        default=None, description="dc: between the panels and the inverter; ac: on a socket of its own."
    )
    charge_limit_w: f.ChargeLimitW | None = None
    discharge_limit_w: f.DischargeLimitW | None = None
    max_input_current_a: f.MaxInputCurrentA | None = None
    round_trip_share: f.RoundTripShare | None = None
    standby_w: f.StandbyW | None = None
    meter_reader: f.Yes | None = Field(
        default=None, description="Does it follow the meter? Without, it feeds a fixed power all night."
    )
    night_feed_w: f.NightFeedW | None = None
    charge_above_w: f.ChargeAboveW | None = None
    ageing_share_per_year: f.AgeingSharePerYear | None = None
    amount: f.Amount | None = None
