"""How is a shortlist asked for: a home, adverts, what is at hand, and what is wanted?"""

from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, model_validator

from service.api import fields as f
from service.api.schemas.adverts import MOST_COMPARED, AdvertIn, bound_of, named_once
from service.api.schemas.array import StandingIn
from service.api.schemas.base import In
from service.api.schemas.circuit import SocketCircuitIn
from service.api.schemas.contradictions import of_household, of_inverter, of_panel, of_tariff
from service.api.schemas.household import HouseholdIn, MeterIn
from service.api.schemas.inverter import InverterIn
from service.api.schemas.mistakes import Found
from service.api.schemas.money import MoneyIn, OutlayItemIn, TariffIn
from service.api.schemas.panel import PanelIn
from service.api.schemas.place import SiteIn
from service.core.model.bounds import BOUNDS

_TEXT = {
    "id": "a7",
    "title": "4 Heliora HL-395 Solarmodule",
    "body": "4 Module je 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht. 45 € pro Stück, nur Abholung.",
    "distance_km": 12,
}
SMALLEST: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
    "at_hand": {"inverter": {"ac_power_w": 600}},
    "adverts": [_TEXT],
}


class PlaceIn(StandingIn):
    """Where panels could stand: an array without its panel. Its inputs and wiring are chosen, whatever it says."""

    count: f.Count | None = Field(default=None, description="For how many panels there is room; four where not said.")


class ReadPanelIn(PanelIn):
    """What an advert tells of one panel."""

    rated_power_w: f.RatedPowerW | None = None  # type: ignore[assignment]


class ReadInverterIn(InverterIn):
    """What an advert tells of one inverter."""

    ac_power_w: f.AcPowerW | None = None  # type: ignore[assignment]


class ReadPriceIn(In):
    """The price of an advert."""

    model_config = ConfigDict(extra="ignore")

    value: f.Price | None = None
    currency: f.Currency | None = None
    basis: Literal["each", "lot", "set", "unknown"] | None = None


class ReadDeliveryIn(In):
    """How the goods come."""

    kind: Literal["pickup", "shipping", "either", "unknown"] | None = None
    cost: f.DeliveryCost | None = None


class ReadDoubtIn(In):
    """A doubt about an advert, by its code."""

    model_config = ConfigDict(extra="ignore")

    code: Annotated[str, f.text("A code of the vocabulary.", "untested", 60)]


_DEEPEST = 6


def _without_slips(part: Any, within: str = "", depth: int = 0) -> Any:
    """A reading without the figures that an advert told beyond their bounds, by a slip: they count as not told.

    What no advert tells (nought watts, minus three pieces, a thousand million volts) stays, to be refused.
    """
    if isinstance(part, list):
        return [_without_slips(one, within, depth + 1) for one in part] if depth < _DEEPEST else part
    if not isinstance(part, dict) or depth >= _DEEPEST:
        return part
    found: dict[str, Any] = {}
    for name, value in part.items():
        kind = type(value)  # as JSON gives it; a board has thousands of figures
        if kind is dict or kind is list:
            found[name] = _without_slips(value, name, depth + 1)
            continue
        if kind is int or kind is float:
            bounds = BOUNDS.get(bound_of(within, name))
            if bounds is not None and bounds.are_missed(value):
                continue
        found[name] = value
    return found


class ReadAdvertIn(In):
    """A reading of `/v1/adverts/reading`, or parts of one; what is not read here is passed over.

    Figures out of their bounds count as not told, as in a text, where they are out by no more than a hundredfold;
    what no advert can mean, such as nought watts or minus three pieces, is refused.
    """

    model_config = ConfigDict(extra="ignore", json_schema_extra={"examples": [{"kind": "panel"}]})

    kind: Literal["panel", "inverter", "set", "other"]
    is_offer: f.Yes | None = Field(default=None, description="Is something on offer? Where not said, it is.")
    language: Annotated[str, f.text("Language of the advert.", "de", 3)] | None = None
    quantity_available: f.QuantityAvailable | None = None
    least_quantity: f.QuantityAvailable | None = Field(
        default=None, description="The fewest pieces that are sold together."
    )
    panel_count: f.Count | None = Field(default=None, description="Panels in one set.")
    price: ReadPriceIn | None = None
    condition: Literal["new", "unused", "used", "damaged", "unknown"] | None = None
    delivery: ReadDeliveryIn | None = None
    doubts: Annotated[list[ReadDoubtIn], f.several("Doubts about it.", 0, 40)] | None = None
    bifacial: f.Yes | None = Field(default=None, description="Does the advert say that the panel is two-sided?")
    panel: ReadPanelIn | None = None
    inverter: ReadInverterIn | None = None

    @model_validator(mode="before")
    @classmethod
    def _odd_figures_left_out(cls, value: Any) -> Any:
        return _without_slips(value)


class ShortlistAdvertIn(AdvertIn):
    """An advert, as its text or already read; `reading` counts where both are there, and the answer says so."""

    reading: ReadAdvertIn | None = None
    distance_km: f.DistanceKm | None = None
    delivery_cost: f.DeliveryCost | None = None
    fetched_at: f.Name | None = Field(
        default=None,
        description="Your name for where it is fetched, in capitals or not, umlauts spelled out or not, a saint's word "
        "short or in another language, with its postcode before it (a Dutch or British one behind it, too) or not: "
        "adverts of one name are fetched on one trip, and how far that is need be told of one of them only. Names of "
        "two postcodes are two places.",
    )
    panel_count: f.PanelCount | None = Field(default=None, description="Panels in one set, where the advert is of one.")
    posted_on: f.Day | None = None


class AtHandIn(In):
    """What is there already and need not be bought."""

    inverter: InverterIn | None = None
    panels: Annotated[list[PanelIn], f.several("Panels at hand, one entry each.", 0, 8)] | None = None
    items: (
        Annotated[list[f.What], f.several("Things of `outlay.items` that are at hand, by what they are called.", 0, 20)]
        | None
    ) = None


class NewFromShopIn(In):
    """A new set and its whole price: the row that stands beside. Without it nothing is called a bargain."""

    outlay: f.Price = Field(description="What the new set costs, with all that belongs to it.")
    panel: PanelIn
    inverter: InverterIn
    panel_count: f.PanelCount | None = Field(
        default=None, description="Panels of the new set; one on each input of its inverter where not said."
    )


class ShortlistOutlayIn(In):
    """What comes with every set, and what fetching costs."""

    items: Annotated[list[OutlayItemIn], f.several("Brackets, leads and the like.", 0, 20)] | None = None
    freight: f.Freight | None = None
    registration: f.Registration | None = None
    faulty_share: f.FaultyShare | None = None
    fetching_per_km: f.FetchingPerKm | None = None


class ShortlistIn(In):
    """Which of these adverts should I ring up first? Home and money as in an appraisal."""

    model_config = ConfigDict(json_schema_extra={"examples": [SMALLEST]})

    site: SiteIn
    household: HouseholdIn | None = None
    meter: MeterIn | None = None
    tariff: TariffIn | None = None
    money: MoneyIn | None = None
    socket_circuit: SocketCircuitIn | None = None
    downtime_days_per_year: f.DowntimeDaysPerYear | None = None
    wish: f.Wish | None = Field(
        default=None,
        description="The shortest cautious payback (where not said), the most value over the years kept, or the least "
        "outlay for each yearly kWh.",
        examples=["quick_payback"],
    )
    limit: f.Limit | None = None
    places: Annotated[list[PlaceIn], f.several("Where panels could stand; any place where not said.", 1, 4)] | None = (
        None
    )
    at_hand: AtHandIn | None = None
    new_from_shop: NewFromShopIn | None = None
    outlay: ShortlistOutlayIn | None = None
    adverts: Annotated[list[ShortlistAdvertIn], f.several("The adverts.", 1, MOST_COMPARED)]
    as_of: f.AsOf | None = None

    def contradict(self, found: Found) -> None:
        """Those of the home and of what is at hand; what an advert contradicts is the advert's own, and no mistake."""
        if self.household:
            of_household(self.household, found)
        if self.tariff:
            of_tariff(self.tariff, self.meter, found)
        for at, panel in enumerate((self.at_hand.panels if self.at_hand else None) or ()):
            of_panel(panel, f"/at_hand/panels/{at}", found)
        if self.at_hand and self.at_hand.inverter:
            of_inverter(self.at_hand.inverter, "/at_hand/inverter", found)
        if self.new_from_shop:
            of_panel(self.new_from_shop.panel, "/new_from_shop/panel", found)
            of_inverter(self.new_from_shop.inverter, "/new_from_shop/inverter", found)
        named_once(self.adverts, found)
