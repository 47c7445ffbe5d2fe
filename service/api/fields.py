"""Within which bounds does a field of a request lie, and of which form is it? The types that the schemas share.

Bounds come from ``core.model.bounds`` by the field's name; description and example from ``says``. A number is a
number: text and truth values are refused, NaN and infinity too. An integer may be written 2.0, as JSON Schema has it.
"""

from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from service.api.long_lists import known_currency
from service.api.says import SAYS
from service.core.model.bounds import BOUNDS


def _whole(value: Any) -> Any:
    """2.0 is an integer to JSON Schema; all else stays as it is, to be refused by type."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


WHOLE = BeforeValidator(_whole)


def bounded(name: str) -> Any:
    """The bounds, description and example of a number, by its field's name."""
    bounds, says = BOUNDS[name], SAYS[name]
    unit = f" Unit: {bounds.unit}." if bounds.unit else ""
    low, high = (int(bounds.low), int(bounds.high)) if bounds.whole else (bounds.low, bounds.high)
    return Field(
        ge=low,
        le=high,
        strict=True,
        description=says.description + unit,
        examples=says.example[:1] if isinstance(says.example, list) else [says.example],
        allow_inf_nan=None if bounds.whole else False,
    )


# No control characters, no line separators, nothing that turns the direction of writing: a name stays on its line.
PRINTABLE = r"^[^\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]*$"


def text(description: str, example: str, longest: int, pattern: str = PRINTABLE) -> Any:
    """Bounded text of one line."""
    return Field(
        strict=True, min_length=1, max_length=longest, pattern=pattern, description=description, examples=[example]
    )


def several(description: str, least: int, most: int, example: list[Any] | None = None) -> Any:
    """A bounded list; ``example`` where one of its entries alone would mislead."""
    examples = None if example is None else [example]
    return Field(min_length=least, max_length=most, description=description, examples=examples)


def _iso_date(value: str) -> str:
    """Refuse 30 February."""
    date.fromisoformat(value)
    return value


def _iso_time(value: str) -> str:
    """Refuse 30 February and 25 o'clock."""
    datetime.fromisoformat(value.upper())
    return value


def iso_day(description: str, example: str) -> Any:
    """A calendar day as text, between 2000 and 2199."""
    return Field(
        strict=True,
        min_length=10,
        max_length=10,
        pattern=r"^2[01][0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$",
        description=description,
        examples=[example],
        json_schema_extra={"format": "date"},
    )


IS_A_DAY = AfterValidator(_iso_date)


# Closed lists of a request. The vocabulary prints them; a standard stands behind each where it says so.
Terrain = Literal["open_sea", "open_land", "suburb", "city"]
Mount = Literal[
    "hung_on_rail",
    "behind_rail",
    "balcony_floor",
    "wall",
    "fence",
    "ground_frame",
    "flat_roof",
    "sloped_roof",
    "free_standing",
]
Joined = Literal["series", "parallel", "one_string"]
Orientation = Literal["upright", "lengthwise"]
Side = Literal["left", "right"]
Edge = Literal["soft", "hard"]
CellKind = Literal["mono", "poly", "topcon", "hjt", "back_contact", "cdte", "cigs", "amorphous"]
Connector = Literal["locking_4mm", "older_locking", "older_unlocked", "bare", "not_known"]
Glass = Literal["glass_foil", "glass_glass"]
History = Literal["unused", "roof", "storage", "not_known"]
PanelPowerKind = Literal["maximum", "recommended", "not_known"]
Weighting = Literal["european", "californian"]
Seat = Literal["behind_panel", "open_shade", "sunlit", "closed_box", "indoors"]
Plug = Literal["household", "special_connector", "fixed", "not_known"]
Laying = Literal[
    "in_insulated_wall", "in_conduit_in_insulated_wall", "in_conduit", "under_plaster", "on_wall", "in_air"
]
ResidualCurrentDevice = Literal["type_a", "type_f", "type_b", "type_ac", "one_way", "none", "not_known"]
AskedDevice = Literal["type_a", "type_b"]
LeadRoute = Literal["direct", "window", "door", "wall"]
MeterCounts = Literal["two_way", "reversing", "one_way", "not_known"]
Netting = Literal["instant", "quarter_hour", "hour", "month", "year"]
DemandKind = Literal["own_hours", "averaged"]
Export = Literal["unpaid", "paid", "netted"]
Days = Literal[
    "all", "weekday", "weekend", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"
]
Wish = Literal["quick_payback", "most_value", "least_outlay_per_kwh"]
Include = Literal["used", "hours", "moves", "what_if"]
WeatherSource = Literal["climate", "given", "file"]
Stamp = Literal["start", "middle", "end"]
LogKind = Literal["counter", "interval", "power", "month"]
LogUnit = Literal["kwh", "wh", "w"]
Objective = Literal["energy", "self_used", "money"]
ChangesPerYear = Annotated[Literal[2, 4, 12], WHOLE, Field(json_schema_extra={"minimum": 2, "maximum": 12})]
Coupling = Literal["dc", "ac"]
Sky = Literal["clear", "thin_cloud", "overcast", "indoors"]
BackState = Literal["sound", "chalky", "cracked", "burnt"]
GlassState = Literal["sound", "cracked"]

# Numbers, by the field's name.
LatitudeDeg = Annotated[float, bounded("latitude_deg")]
LongitudeDeg = Annotated[float, bounded("longitude_deg")]
ElevationM = Annotated[float, bounded("elevation_m")]
GroundReflectanceShare = Annotated[float, bounded("ground_reflectance_share")]
ColdestAirC = Annotated[float, bounded("coldest_air_c")]
BasicWindVelocityMPerS = Annotated[float, bounded("basic_wind_velocity_m_per_s")]
TiltDeg = Annotated[float, bounded("tilt_deg")]
AzimuthDeg = Annotated[float, bounded("azimuth_deg")]
HeightDeg = Annotated[float, bounded("height_deg")]
InputNumber = Annotated[int, bounded("input"), WHOLE]
Count = Annotated[int, bounded("count"), WHOLE]
HeightAboveGroundM = Annotated[float, bounded("height_above_ground_m")]
AboveTopEdgeM = Annotated[float, bounded("above_top_edge_m")]
AboveBottomEdgeM = Annotated[float, bounded("above_bottom_edge_m")]
ThicknessM = Annotated[float, bounded("thickness_m")]
ReachesOutM = Annotated[float, bounded("reaches_out_m")]
DistanceM = Annotated[float, bounded("distance_m")]
LightThroughShare = Annotated[float, bounded("light_through_share")]
BlockedShare = Annotated[float, bounded("blocked_share")]
TiltStepDeg = Annotated[float, bounded("tilt_step_deg")]
AzimuthStepDeg = Annotated[float, bounded("azimuth_step_deg")]
DayOfMonth = Annotated[int, bounded("day"), WHOLE]
Month = Annotated[int, bounded("month"), WHOLE]
DirtShare = Annotated[float, bounded("dirt_share")]
MismatchShare = Annotated[float, bounded("mismatch_share")]
HottestCellC = Annotated[float, bounded("hottest_cell_c")]
RearLightShare = Annotated[float, bounded("rear_light_share")]
FacingReflectanceShare = Annotated[float, bounded("facing_reflectance_share")]
FacadeAzimuthDeg = Annotated[float, bounded("facade_azimuth_deg")]
RatedPowerW = Annotated[float, bounded("rated_power_w")]
OpenCircuitVoltageV = Annotated[float, bounded("open_circuit_voltage_v")]
ShortCircuitCurrentA = Annotated[float, bounded("short_circuit_current_a")]
MaxPowerVoltageV = Annotated[float, bounded("max_power_voltage_v")]
MaxPowerCurrentA = Annotated[float, bounded("max_power_current_a")]
CellsInSeries = Annotated[int, bounded("cells_in_series"), WHOLE]
CellsVisible = Annotated[int, bounded("cells_visible"), WHOLE]
VocCoefficientPctPerK = Annotated[float, bounded("voc_coefficient_pct_per_k")]
VocCoefficientVPerK = Annotated[float, bounded("voc_coefficient_v_per_k")]
VocCoefficientMvPerK = Annotated[float, bounded("voc_coefficient_mv_per_k")]
IscCoefficientPctPerK = Annotated[float, bounded("isc_coefficient_pct_per_k")]
IscCoefficientAPerK = Annotated[float, bounded("isc_coefficient_a_per_k")]
IscCoefficientMaPerK = Annotated[float, bounded("isc_coefficient_ma_per_k")]
PowerCoefficientPctPerK = Annotated[float, bounded("power_coefficient_pct_per_k")]
MaxSystemVoltageV = Annotated[float, bounded("max_system_voltage_v")]
StringFuseA = Annotated[float, bounded("string_fuse_a")]
MaxSeriesFuseA = Annotated[float, bounded("max_series_fuse_a")]
BifacialityShare = Annotated[float, bounded("bifaciality_share")]
LengthMm = Annotated[float, bounded("length_mm")]
WidthMm = Annotated[float, bounded("width_mm")]
WeightKg = Annotated[float, bounded("weight_kg")]
AgeYears = Annotated[float, bounded("age_years")]
PowerTolerancePct = Annotated[float, bounded("power_tolerance_pct")]
AcPowerW = Annotated[float, bounded("ac_power_w")]
SetLimitW = Annotated[float, bounded("set_limit_w")]
ExportLimitW = Annotated[float, bounded("export_limit_w")]
InputCount = Annotated[int, bounded("input_count"), WHOLE]
MaxInputVoltageV = Annotated[float, bounded("max_input_voltage_v")]
TrackingMinV = Annotated[float, bounded("tracking_min_v")]
TrackingMaxV = Annotated[float, bounded("tracking_max_v")]
StartVoltageV = Annotated[float, bounded("start_voltage_v")]
MaxCurrentA = Annotated[float, bounded("max_current_a")]
MaxShortCircuitCurrentA = Annotated[float, bounded("max_short_circuit_current_a")]
MaxPanelShortCircuitCurrentA = Annotated[float, bounded("max_panel_short_circuit_current_a")]
MaxPanelPowerW = Annotated[float, bounded("max_panel_power_w")]
MaxInputPowerW = Annotated[float, bounded("max_input_power_w")]
ConnectorPairs = Annotated[int, bounded("connector_pairs"), WHOLE]
WeightedEfficiencyShare = Annotated[float, bounded("weighted_efficiency_share")]
NightDrawW = Annotated[float, bounded("night_draw_w")]
BreakerA = Annotated[float, bounded("breaker_a")]
VoltageV = Annotated[float, bounded("voltage_v")]
GridVoltageV = Annotated[float, bounded("grid_voltage_v")]
CableMm2 = Annotated[float, bounded("cable_mm2")]
AmbientC = Annotated[float, bounded("ambient_c")]
LeadLengthM = Annotated[float, bounded("lead_length_m")]
LeadMm2 = Annotated[float, bounded("lead_mm2")]
FeederLengthM = Annotated[float, bounded("feeder_length_m")]
PanelPowerW = Annotated[float, bounded("panel_power_w")]
DowntimeDaysPerYear = Annotated[float, bounded("downtime_days_per_year")]
DemandKwhPerYear = Annotated[float, bounded("demand_kwh_per_year")]
Persons = Annotated[int, bounded("persons"), WHOLE]
AlwaysOnW = Annotated[float, bounded("always_on_w")]
KwhARun = Annotated[float, bounded("kwh_a_run")]
RunsPerWeek = Annotated[float, bounded("runs_per_week")]
UsualHour = Annotated[int, bounded("usual_hour"), WHOLE]
Hour = Annotated[float, bounded("hour")]
StayYears = Annotated[float, bounded("stay_years")]
ValueW = Annotated[float, bounded("values_w")]
GhiWPerM2 = Annotated[float, bounded("ghi_w_per_m2")]
DniWPerM2 = Annotated[float, bounded("dni_w_per_m2")]
DhiWPerM2 = Annotated[float, bounded("dhi_w_per_m2")]
PlaneWPerM2 = Annotated[float, bounded("plane_w_per_m2")]
AirC = Annotated[float, bounded("air_c")]
WindMPerS = Annotated[float, bounded("wind_m_per_s")]
StepMinutes = Annotated[int, bounded("step_minutes"), WHOLE]
LogStepMinutes = Annotated[int, bounded("log_step_minutes"), WHOLE]
IrradianceWPerM2 = Annotated[float, bounded("irradiance_w_per_m2")]
IrradianceUncertaintyShare = Annotated[float, bounded("irradiance_uncertainty_share")]
CellC = Annotated[float, bounded("cell_c")]
OpenCircuitVoltageReadV = Annotated[float, bounded("open_circuit_voltage_read_v")]
ShortCircuitCurrentReadA = Annotated[float, bounded("short_circuit_current_read_a")]
PlusToFrameV = Annotated[float, bounded("plus_to_frame_v")]
FrameToMinusV = Annotated[float, bounded("frame_to_minus_v")]
MeterInputMohm = Annotated[float, bounded("meter_input_mohm")]
BypassForwardV = Annotated[float, bounded("bypass_forward_v")]
BypassSwappedV = Annotated[float, bounded("bypass_swapped_v")]
CurrentLimitA = Annotated[float, bounded("current_limit_a")]
VoltageLimitV = Annotated[float, bounded("voltage_limit_v")]
FilledShare = Annotated[float, bounded("filled_share")]
ImportPricePerKwh = Annotated[float, bounded("import_price_per_kwh")]
ExportPricePerKwh = Annotated[float, bounded("export_price_per_kwh")]
HourImportPrice = Annotated[float, bounded("import_prices_per_kwh")]
HourExportPrice = Annotated[float, bounded("export_prices_per_kwh")]
FeePerYear = Annotated[float, bounded("fee_per_year")]
FeePerKvaYear = Annotated[float, bounded("fee_per_kva_year")]
ExportTaxShare = Annotated[float, bounded("export_tax_share")]
Amount = Annotated[float, bounded("amount")]
Freight = Annotated[float, bounded("freight")]
FreightLess = Annotated[float, bounded("freight_less")]
FreightMore = Annotated[float, bounded("freight_more")]
Registration = Annotated[float, bounded("registration")]
FaultyShare = Annotated[float, bounded("faulty_share")]
DistanceKm = Annotated[float, bounded("distance_km")]
DeliveryCost = Annotated[float, bounded("delivery_cost")]
Price = Annotated[float, bounded("price")]
Limit = Annotated[int, bounded("limit"), WHOLE]
QuantityAvailable = Annotated[int, bounded("quantity_available"), WHOLE]
PanelCount = Annotated[int, bounded("panel_count"), WHOLE]
FetchingPerKm = Annotated[float, bounded("fetching_per_km")]
Km = Annotated[float, bounded("km")]
PerKm = Annotated[float, bounded("per_km")]
Trips = Annotated[int, bounded("trips"), WHOLE]
Hours = Annotated[float, bounded("hours")]
PerHour = Annotated[float, bounded("per_hour")]
Years = Annotated[int, bounded("years"), WHOLE]
DiscountRateShare = Annotated[float, bounded("discount_rate_share")]
PriceGrowthShare = Annotated[float, bounded("price_growth_share")]
AgeingSharePerYear = Annotated[float, bounded("ageing_share_per_year")]
Year = Annotated[int, bounded("year"), WHOLE]
ResaleShare = Annotated[float, bounded("resale_share")]
RunningCostPerYear = Annotated[float, bounded("running_cost_per_year")]
YearKwh = Annotated[float, bounded("year_kwh")]
NightDrawKwh = Annotated[float, bounded("night_draw_kwh")]
LoggedKwh = Annotated[float, bounded("logged_kwh")]
SelfUsedShare = Annotated[float, bounded("self_used_share")]
UsableKwh = Annotated[float, bounded("usable_kwh")]
ChargeLimitW = Annotated[float, bounded("charge_limit_w")]
DischargeLimitW = Annotated[float, bounded("discharge_limit_w")]
MaxInputCurrentA = Annotated[float, bounded("max_input_current_a")]
RoundTripShare = Annotated[float, bounded("round_trip_share")]
StandbyW = Annotated[float, bounded("standby_w")]
NightFeedW = Annotated[float, bounded("night_feed_w")]
ChargeAboveW = Annotated[float, bounded("charge_above_w")]
Yes = Annotated[bool, Field(strict=True)]

# Text.
_TIME = r"^[12][0-9]{3}-[01][0-9]-[0-3][0-9][Tt][0-2][0-9]:[0-5][0-9](:[0-5][0-9](\.[0-9]{1,9})?)?"
CLOCK = r"^([01][0-9]|2[0-3]):[0-5][0-9]$|^24:00$"
Name = Annotated[str, text("A name of yours, repeated in the answer.", "left", 60)]
ModelCode = Annotated[str, text("The maker's model code.", "HL-440", 80)]
WeatherFileName = Annotated[
    str, text("A weather file that the operator keeps; GET /v1/vocabulary lists them.", "nordmole-pier", 80)
]
Material = Annotated[str, text("What stands in front of the panel.", "glass", 40)]
Cause = Annotated[str, text("What throws the shadow.", "tree", 40)]
What = Annotated[str, text("What the money is for.", "panels", 60)]
ConnectorMake = Annotated[
    str, text("Make and type on the connectors of the direct-current leads, as printed on them.", "Kranich K4", 60)
]
Certificate = Annotated[str, text("A standard that a certificate at hand names.", "EN 62109-1", 120)]
TimeZone = Annotated[str, text("IANA name of the time zone.", "Europe/Berlin", 64, r"^[A-Za-z0-9_+/-]+$")]
RuleArea = Annotated[str, text("ISO 3166 code of the area whose rules apply.", "DE", 6, r"^[A-Z]{2}(-[A-Z0-9]{1,3})?$")]
Clock = Annotated[str, text("Wall-clock time, HH:MM.", "15:00", 5, CLOCK)]
LogBegin = Annotated[
    str,
    text(
        "When the first step begins: an instant (RFC 3339, with Z or an offset), or without either the place's "
        "wall-clock time. Seconds may be left out. From there on steps follow evenly, whatever summer time does.",
        "2025-03-01T00:00:00+01:00",
        40,
        r"^[12][0-9]{3}-[01][0-9]-[0-3][0-9][Tt][0-2][0-9]:[0-5][0-9](:[0-5][0-9](\.[0-9]{1,9})?)?"
        r"([Zz]|[+-][0-2][0-9]:[0-5][0-9])?$",
    ),
    AfterValidator(_iso_time),
]
FirstStamp = Annotated[
    str,
    text(
        "The stamp of the first step: an instant (RFC 3339, with Z or an offset), or without either the place's "
        "wall-clock time. From there on steps follow evenly, whatever summer time does.",
        "2025-03-01T00:00:00+01:00",
        40,
        _TIME + r"([Zz]|[+-][0-2][0-9]:[0-5][0-9])?$",
    ),
    AfterValidator(_iso_time),
]
Instant = Annotated[
    str,
    text(
        "An instant of RFC 3339, with Z or an offset.",
        "2025-03-01T00:00:00+01:00",
        40,
        _TIME + r"([Zz]|[+-][0-2][0-9]:[0-5][0-9])$",
    ),
    AfterValidator(_iso_time),
]
Currency = Annotated[
    str, text("An active code of ISO 4217, in capitals.", "EUR", 3, r"^[A-Z]{3}$"), AfterValidator(known_currency)
]
Day = Annotated[str, IS_A_DAY, iso_day("A calendar day.", "2026-01-01")]
AsOf = Annotated[
    str, IS_A_DAY, iso_day("The day for which dated rules and prices are read; today where absent.", "2026-11-25")
]
