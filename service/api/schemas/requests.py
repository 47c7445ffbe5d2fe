"""What may be asked? One class for each path that takes a body; same names, same nesting everywhere."""

from typing import Annotated, Any

from pydantic import ConfigDict, Discriminator, Field, Tag

from service.api import fields as f
from service.api.schemas.array import ArrayIn
from service.api.schemas.base import In
from service.api.schemas.circuit import SocketCircuitIn
from service.api.schemas.household import HouseholdIn, MeterIn
from service.api.schemas.inverter import InverterIn
from service.api.schemas.money import MoneyIn, OutlayIn, TariffIn
from service.api.schemas.place import SiteIn
from service.api.schemas.storage import StorageIn
from service.api.schemas.tilt_wish import TiltWishIn
from service.api.schemas.weather import WeatherIn


class _Common(In):
    """Parts that every question may carry. Those that a path does not need are checked and otherwise unused."""

    socket_circuit: SocketCircuitIn | None = None
    downtime_days_per_year: f.DowntimeDaysPerYear | None = None
    household: HouseholdIn | None = None
    meter: MeterIn | None = None
    tariff: TariffIn | None = None
    outlay: OutlayIn | None = None
    money: MoneyIn | None = None
    storage: StorageIn | None = None
    tilt: TiltWishIn | None = None
    weather: WeatherIn | None = None
    include: (
        Annotated[
            list[f.Include],
            Field(
                max_length=4,
                description="What to add to the answer: the completed request, the hours, how far assumptions move "
                "it, what the set would give with one thing changed (energy and appraisal).",
                examples=[["used"]],
            ),
        ]
        | None
    ) = None
    as_of: f.AsOf | None = None


SMALLEST: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
    "arrays": [{"panel": {"rated_power_w": 410}}],
    "inverter": {"ac_power_w": 600},
}

Arrays = Annotated[list[ArrayIn], f.several("One to eight arrays.", 1, 8)]


class _Set(In):
    site: SiteIn
    arrays: Arrays
    inverter: InverterIn


class AppraisalIn(_Common, _Set):
    """Is this set worth buying for this home? All but four numbers may be missing and is then assumed and reported."""

    model_config = ConfigDict(json_schema_extra={"examples": [SMALLEST]})


class EnergyIn(AppraisalIn):
    """What will it yield? Takes what an appraisal takes."""


class CompatibilityIn(AppraisalIn):
    """Does it fit electrically, the socket, the local rule? Takes what an appraisal takes."""


class TiltIn(AppraisalIn):
    """How should it stand? Takes what an appraisal takes, and in ``tilt`` what is asked about the planes."""

    model_config = ConfigDict(
        json_schema_extra={"examples": [{**SMALLEST, "tilt": {"objective": "energy", "changes_per_year": [2, 4]}}]}
    )


class YearKwhBandIn(In):
    """A year's energy with its spread: the outcome that 90, 50 and 10 % of cases do better than."""

    cautious: f.YearKwh
    middle: f.YearKwh
    hopeful: f.YearKwh


def _number_or_band(value: Any) -> str:
    return "band" if isinstance(value, dict | YearKwhBandIn) else "number"


class KnownEnergyIn(In):
    """Energy from elsewhere, or the ``energy`` of an appraisal's answer; year's sum and night's draw are read."""

    model_config = ConfigDict(extra="ignore")

    year_kwh: Annotated[
        Annotated[f.YearKwh, Tag("number")] | Annotated[YearKwhBandIn, Tag("band")],
        Discriminator(_number_or_band),
    ] = Field(description="A number, or a band.")
    night_draw_kwh: f.NightDrawKwh | None = Field(
        default=None,
        description="What the inverter draws at night; it is taken off the saving. Not said: nothing.",
    )


class KnownPlantIn(In):
    """A plant on the roof, as an appraisal's ``use.other_generation`` tells of it; no more is read."""

    model_config = ConfigDict(extra="ignore")

    year_kwh: f.YearKwh = Field(description="What the plant gives.")
    self_used_kwh: f.YearKwh = Field(description="What of that is used at home in the moment.")


class KnownUseIn(In):
    """Use at home as the meter sees it, from elsewhere or the ``use`` of an appraisal's answer; no more is read."""

    model_config = ConfigDict(extra="ignore")

    self_used_share: f.SelfUsedShare
    self_used_kwh: YearKwhBandIn | None = Field(
        default=None, description="Read for its width: how sure the share is, yield and habits together."
    )
    demand_kwh: f.DemandKwhPerYear | None = Field(
        default=None, description="What the home needs in a year, where the household does not say it."
    )
    other_generation: KnownPlantIn | None = Field(
        default=None, description="Of a plant on the roof, whose surplus is netted before the set's."
    )


class KnownLogIn(In):
    """What a log holds so far: the ``logbook`` of a review's answer, or three figures of your own; no more is read."""

    model_config = ConfigDict(extra="ignore")

    logged_kwh: f.LoggedKwh
    from_time: f.Instant
    to_time: f.Instant = Field(examples=["2026-03-01T00:00:00+01:00"])


PLAIN: dict[str, Any] = {
    "energy": {"year_kwh": 640},
    "use": {"self_used_share": 0.55},
    "tariff": {
        "currency": "EUR",
        "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}],
    },
    "outlay": {"items": [{"what": "panels", "amount": 195}, {"what": "inverter", "amount": 149}]},
}


class _AnySet(In):
    site: SiteIn | None = None
    arrays: Arrays | None = None
    inverter: InverterIn | None = None
    energy: KnownEnergyIn | None = None
    use: KnownUseIn | None = None
    logbook: KnownLogIn | None = Field(default=None, description="For what has been paid back so far.")


class PaybackIn(_Common, _AnySet):
    """When is it paid back? Either what an appraisal takes, or plainly the energy, the share used at home, a tariff.

    Energy and share then count as they stand; of the home only the stay and the yearly demand are read. Where no price
    is given, a `site` in place of it takes the dated price of its area, and says so.
    """

    model_config = ConfigDict(
        json_schema_extra={
            "examples": [PLAIN],
            "anyOf": [
                {"required": ["site", "arrays", "inverter"]},
                {"required": ["energy", "use", "tariff"]},
                {"required": ["energy", "use", "site"]},
            ],
        }
    )


class ClimateIn(In):
    """What weather does an answer rest on? Only the place is read."""

    model_config = ConfigDict(json_schema_extra={"examples": [{"site": SMALLEST["site"]}]})

    site: SiteIn
