"""What does a field of a request mean, within which bounds, and how does an example look? Said once, here.

Bounds come from ``core.model.bounds`` by the field's name; description and example live in ``SAYS``. A number is a
number: text and truth values are refused, NaN and infinity too. An integer may be written 2.0, as JSON Schema has it.
"""

from collections.abc import Mapping
from datetime import date, datetime
from types import MappingProxyType
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from service.api.long_lists import known_currency
from service.api.says import Says
from service.core.model.bounds import BOUNDS

SAYS: Mapping[str, Says] = MappingProxyType(
    {
        "latitude_deg": Says("Degrees north of the equator; negative in the south.", 54.2),
        "longitude_deg": Says("Degrees east of Greenwich; negative in the west.", 12.3),
        "elevation_m": Says("Height of the ground above the sea.", 8),
        "ground_reflectance_share": Says("Share of the light that the ground around throws back.", 0.2),
        "coldest_air_c": Says("The coldest air of many years at this place.", -14),
        "basic_wind_velocity_m_per_s": Says("Basic wind velocity of the place (EN 1991-1-4).", 27.5),
        "tilt_deg": Says("0 lies flat, 90 stands upright.", 90),
        "azimuth_deg": Says("Clockwise from north: 90 east, 180 south, 270 west.", 150),
        "height_deg": Says("Height of the skyline above the horizontal, seen from the panel.", 12),
        "input": Says("Input of the inverter, counted from 1 as printed on it.", 1),
        "count": Says("How many equal panels.", 1),
        "height_above_ground_m": Says("How far above the ground the panels hang or stand.", 11),
        "above_top_edge_m": Says("How far above the panel's upper edge.", 1.6),
        "reaches_out_m": Says("How far it reaches out from the panel's plane.", 0.3),
        "distance_m": Says("How far from the panel's nearest edge.", 0.4),
        "light_through_share": Says("Share of the light that comes through.", 0.8),
        "blocked_share": Says("Share of the direct light that is taken away.", 0.6),
        "month": Says("Month of the year.", 5),
        "dirt_share": Says("Share of the light lost to dirt over the year.", 0.02),
        "mismatch_share": Says("Share of the energy lost because panels differ.", 0),
        "hottest_cell_c": Says("Hottest cell, for the operating voltage; where absent, that of the typical year.", 68),
        "rear_light_share": Says(
            "Light on the rear over light on the front in full sun, for panels that use it.", 0.05
        ),
        "rated_power_w": Says("Rated power of one panel, as on its label.", 440),
        "open_circuit_voltage_v": Says("Open-circuit voltage of one panel (Voc on the label).", 39.4),
        "short_circuit_current_a": Says("Short-circuit current of one panel (Isc on the label).", 14.1),
        "max_power_voltage_v": Says("Voltage at rated power (Vmp on the label).", 32.9),
        "max_power_current_a": Says("Current at rated power (Imp on the label).", 13.38),
        "cells_in_series": Says("Cells in series in one panel; half-cut panels have half of the cells seen.", 54),
        "cells_visible": Says("Cells that are seen on one panel, whole or cut: rows times columns.", 60),
        "voc_coefficient_pct_per_k": Says("Change of the open-circuit voltage per kelvin, in per cent.", -0.26),
        "voc_coefficient_v_per_k": Says("Change of the open-circuit voltage per kelvin, in volts.", -0.1),
        "isc_coefficient_pct_per_k": Says("Change of the short-circuit current per kelvin, in per cent.", 0.045),
        "isc_coefficient_a_per_k": Says("Change of the short-circuit current per kelvin, in amperes.", 0.006),
        "power_coefficient_pct_per_k": Says("Change of the rated power per kelvin, in per cent.", -0.31),
        "max_system_voltage_v": Says("Highest system voltage that the panel may be part of.", 1000),
        "max_series_fuse_a": Says("Largest series fuse that the label allows.", 25),
        "bifaciality_share": Says("Power of the rear side over that of the front; 0 where the rear is closed.", 0),
        "length_mm": Says("Longer side of the panel.", 1722),
        "width_mm": Says("Shorter side of the panel.", 1134),
        "weight_kg": Says("Weight of one panel.", 21.5),
        "age_years": Says("Years that the panels have been in use.", 0),
        "power_tolerance_pct": Says("Least and most that the power may differ from the label, in per cent.", [0, 3]),
        "ac_power_w": Says("Rated a.c. power of the inverter.", 800),
        "set_limit_w": Says("The a.c. power that the inverter is set to; not above its rating.", 800),
        "export_limit_w": Says("Largest power that may leave the home, where something keeps it.", 800),
        "input_count": Says("How many inputs the inverter has.", 2),
        "max_input_voltage_v": Says("Absolute maximum voltage of an input.", 60),
        "tracking_min_v": Says("Lower end of the tracking window of an input.", 16),
        "tracking_max_v": Says("Upper end of the tracking window of an input.", 55),
        "start_voltage_v": Says("Voltage from which an input starts.", 22),
        "max_current_a": Says("Largest operating current of an input.", 14),
        "max_short_circuit_current_a": Says("Absolute maximum of the short-circuit current of an input.", 18),
        "max_panel_short_circuit_current_a": Says("Largest label value of Isc that the datasheet admits.", 15),
        "max_panel_power_w": Says("Panel power for one input, as the datasheet names it.", 600),
        "max_input_power_w": Says("The most that an input draws, where the datasheet names such a limit.", 450),
        "connector_pairs": Says("Pairs of connectors that one input has.", 1),
        "weighted_efficiency_share": Says("Weighted efficiency of the inverter.", 0.955),
        "night_draw_w": Says("Power that the inverter draws at night.", 0.1),
        "breaker_a": Says("Rating of the circuit's breaker.", 16),
        "voltage_v": Says("Voltage of the socket.", 230),
        "cable_mm2": Says("Cross-section of the circuit's cable.", 1.5),
        "ambient_c": Says("Air temperature around the cable.", 30),
        "lead_length_m": Says("Length of the lead.", 10),
        "lead_mm2": Says("Cross-section of the lead.", 1.5),
        "feeder_length_m": Says("Length of the cable between meter and the circuit's own panel board.", 0),
        "panel_power_w": Says("Rated power of all panels of another set.", 400),
        "downtime_days_per_year": Says("Days in a year on which the set stands still.", 2),
        "demand_kwh_per_year": Says("What the home uses in a year, as on the bill.", 1900),
        "persons": Says("How many persons live there.", 2),
        "always_on_w": Says("Power that is drawn day and night.", 60),
        "kwh_a_run": Says("Energy of one run of the machine.", 0.9),
        "runs_per_week": Says("Runs in a week.", 4),
        "usual_hour": Says("Hour of the day at which it usually starts.", 19),
        "hour": Says("Hour of the day, wall clock.", 17),
        "stay_years": Says("How many years you expect to stay in this home.", 6),
        "values_w": Says("Mean power in one hour, or in one step of a log.", 210),
        "step_minutes": Says("Length of one step of the log; an hour is a multiple of it.", 15),
        "filled_share": Says("Share of a year's hours that were gaps in a log and have been filled.", 0.04),
        "import_price_per_kwh": Says("What one kWh bought costs (the price by kWh, without fixed charges).", 0.34),
        "export_price_per_kwh": Says("What one kWh sent out earns; negative where it costs.", 0.08),
        "import_prices_per_kwh": Says("What one kWh bought costs in one hour.", 0.31),
        "export_prices_per_kwh": Says("What one kWh sent out earns in one hour.", 0.06),
        "fee_per_year": Says(
            "What the supplier or grid operator asks each year because of the set. The standing charge, which is paid "
            "with or without a set, is none.",
            24,
        ),
        "fee_per_kva_year": Says("The same by kVA of the inverter's rated power.", 60),
        "export_tax_share": Says("Share of what the export price earns that goes as tax.", 0.2),
        "amount": Says("Money, in the request's currency; a rebate is negative.", 96),
        "freight": Says("What the delivery of all things costs.", 39),
        "registration": Says("What registering the set costs.", 0),
        "faulty_share": Says(
            "Share of second-hand panels that prove faulty. Each is bought once more; where that one is faulty too, "
            "its place stays empty and its energy is left out of the account.",
            0.1,
        ),
        "km": Says("How far it is, one way; each trip goes there and back.", 42),
        "per_km": Says("What a kilometre of driving costs.", 0.3),
        "trips": Says("How often somebody goes there.", 1),
        "hours": Says("Hours that the fetching takes in all.", 2),
        "per_hour": Says("What an hour of your own is worth to you.", 12),
        "years": Says("How many years the account runs.", 15),
        "discount_rate_share": Says("Yearly interest that the money could earn elsewhere.", 0.03),
        "price_growth_share": Says(
            "Yearly growth of the price of electricity, from the second year on; state later prices at today's money.",
            0.01,
        ),
        "ageing_share_per_year": Says(
            "Share of its power that a panel, or of its capacity that a battery, loses each year.", 0.005
        ),
        "year": Says("In which year.", 11),
        "resale_share": Says("Share of the outlay that a sale brings when you move out.", 0),
        "running_cost_per_year": Says("Money that the set costs each year.", 0),
        "year_kwh": Says("Energy of a year.", 640),
        "night_draw_kwh": Says("Energy that the inverter draws at night in a year.", 0.4),
        "self_used_share": Says("Share of the energy that is used at home.", 0.55),
        "usable_kwh": Says("What the battery holds between full and empty.", 1.0),
        "charge_limit_w": Says("The most that the battery takes, at its terminals.", 600),
        "discharge_limit_w": Says("The most that the battery gives, at its terminals.", 600),
        "max_input_current_a": Says("Largest operating current of each input of a box before the inverter.", 14),
        "round_trip_share": Says("Energy that the battery gives over energy that it takes.", 0.88),
        "standby_w": Says("What the box draws by itself, day and night.", 5),
        "night_feed_w": Says("Power that a box without a meter reader feeds all night.", 120),
        "charge_above_w": Says(
            "Production up to this passes on to the home; what is above charges. 0: all of it.", 120
        ),
    }
)


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


def several(description: str, least: int, most: int) -> Any:
    """A bounded list."""
    return Field(min_length=least, max_length=most, description=description)


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
Joined = Literal["series", "parallel"]
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
Laying = Literal["in_insulated_wall", "in_conduit", "under_plaster", "on_wall", "in_air"]
ResidualCurrentDevice = Literal["type_a", "type_b", "type_ac", "one_way", "none", "not_known"]
LeadRoute = Literal["direct", "window", "door", "wall"]
MeterCounts = Literal["two_way", "reversing", "one_way", "not_known"]
Netting = Literal["instant", "quarter_hour", "hour", "month", "year"]
DemandKind = Literal["own_hours", "averaged"]
Export = Literal["unpaid", "paid", "netted"]
Days = Literal["all", "weekday", "weekend"]
Include = Literal["used", "hours", "moves"]
Coupling = Literal["dc", "ac"]

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
ReachesOutM = Annotated[float, bounded("reaches_out_m")]
DistanceM = Annotated[float, bounded("distance_m")]
LightThroughShare = Annotated[float, bounded("light_through_share")]
BlockedShare = Annotated[float, bounded("blocked_share")]
Month = Annotated[int, bounded("month"), WHOLE]
DirtShare = Annotated[float, bounded("dirt_share")]
MismatchShare = Annotated[float, bounded("mismatch_share")]
HottestCellC = Annotated[float, bounded("hottest_cell_c")]
RearLightShare = Annotated[float, bounded("rear_light_share")]
RatedPowerW = Annotated[float, bounded("rated_power_w")]
OpenCircuitVoltageV = Annotated[float, bounded("open_circuit_voltage_v")]
ShortCircuitCurrentA = Annotated[float, bounded("short_circuit_current_a")]
MaxPowerVoltageV = Annotated[float, bounded("max_power_voltage_v")]
MaxPowerCurrentA = Annotated[float, bounded("max_power_current_a")]
CellsInSeries = Annotated[int, bounded("cells_in_series"), WHOLE]
CellsVisible = Annotated[int, bounded("cells_visible"), WHOLE]
VocCoefficientPctPerK = Annotated[float, bounded("voc_coefficient_pct_per_k")]
VocCoefficientVPerK = Annotated[float, bounded("voc_coefficient_v_per_k")]
IscCoefficientPctPerK = Annotated[float, bounded("isc_coefficient_pct_per_k")]
IscCoefficientAPerK = Annotated[float, bounded("isc_coefficient_a_per_k")]
PowerCoefficientPctPerK = Annotated[float, bounded("power_coefficient_pct_per_k")]
MaxSystemVoltageV = Annotated[float, bounded("max_system_voltage_v")]
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
StepMinutes = Annotated[int, bounded("step_minutes"), WHOLE]
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
Registration = Annotated[float, bounded("registration")]
FaultyShare = Annotated[float, bounded("faulty_share")]
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
CLOCK = r"^([01][0-9]|2[0-3]):[0-5][0-9]$|^24:00$"
Name = Annotated[str, text("A name of yours, repeated in the answer.", "left", 60)]
ModelCode = Annotated[str, text("The maker's model code.", "HL-440", 80)]
Material = Annotated[str, text("What stands in front of the panel.", "glass", 40)]
Cause = Annotated[str, text("What throws the shadow.", "tree", 40)]
What = Annotated[str, text("What the money is for.", "panels", 60)]
Certificate = Annotated[str, text("A standard that a certificate at hand names.", "EN 62109-1", 120)]
TimeZone = Annotated[str, text("IANA name of the time zone.", "Europe/Berlin", 64, r"^[A-Za-z0-9_+/-]+$")]
RuleArea = Annotated[str, text("ISO 3166 code of the area whose rules apply.", "DE", 6, r"^[A-Z]{2}(-[A-Z0-9]{1,3})?$")]
Clock = Annotated[str, text("Wall-clock time, HH:MM.", "15:00", 5, CLOCK)]
LogBegin = Annotated[
    str,
    AfterValidator(_iso_time),
    text(
        "When the first step begins: an instant (RFC 3339, with Z or an offset), or without either the place's "
        "wall-clock time. Seconds may be left out. From there on steps follow evenly, whatever summer time does.",
        "2025-03-01T00:00:00+01:00",
        40,
        r"^[12][0-9]{3}-[01][0-9]-[0-3][0-9][Tt][0-2][0-9]:[0-5][0-9](:[0-5][0-9](\.[0-9]{1,9})?)?"
        r"([Zz]|[+-][0-2][0-9]:[0-5][0-9])?$",
    ),
]
Currency = Annotated[
    str, text("An active code of ISO 4217, in capitals.", "EUR", 3, r"^[A-Z]{3}$"), AfterValidator(known_currency)
]
Day = Annotated[str, IS_A_DAY, iso_day("A calendar day.", "2026-01-01")]
AsOf = Annotated[
    str, IS_A_DAY, iso_day("The day for which dated rules and prices are read; today where absent.", "2026-11-25")
]
