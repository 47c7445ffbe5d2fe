"""What does a field of a request mean, in a line, and how does an example look? Said once, here."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any


@dataclass(frozen=True, slots=True)
class Says:
    """The description of a field and one example of its value; None where its neighbours give the example."""

    description: str
    example: Any


SAYS: Mapping[str, Says] = MappingProxyType(
    {
        "latitude_deg": Says("Degrees north of the equator; negative in the south.", 54.2),
        "longitude_deg": Says("Degrees east of Greenwich; negative in the west.", 12.3),
        "elevation_m": Says("Height of the ground above the sea.", 8),
        "ground_reflectance_share": Says("Share of the light that the ground around throws back.", 0.2),
        "coldest_air_c": Says("The coldest air of many years at this place.", -14),
        "basic_wind_velocity_m_per_s": Says("Basic wind velocity of the place (EN 1991-1-4), a 10-minute mean.", 27.5),
        "tilt_deg": Says("0 lies flat, 90 stands upright.", 90),
        "azimuth_deg": Says("Clockwise from north: 90 east, 180 south, 270 west.", 150),
        "height_deg": Says("Height of the skyline above the horizontal, seen from the panel.", 12),
        "input": Says("Input of the inverter, counted from 1 as printed on it.", 1),
        "count": Says("How many equal panels.", 1),
        "height_above_ground_m": Says("How far above the ground the panels hang or stand.", 11),
        "above_top_edge_m": Says("How far above the panel's upper edge.", 1.6),
        "above_bottom_edge_m": Says(
            "How far the upper edge of the row in front is above this panel's lower edge.", 0.5
        ),
        "thickness_m": Says("How thick the rail is, from its underside to its top.", 0.05),
        "reaches_out_m": Says("How far out of the panel's upper edge its front lies, measured level.", 0.3),
        "distance_m": Says("How far from the panel's nearest edge.", 0.4),
        "light_through_share": Says("Share of the light that comes through.", 0.8),
        "blocked_share": Says("Share of the direct light that is taken away.", 0.6),
        "tilt_step_deg": Says("Step between two tilts of a map.", 1),
        "azimuth_step_deg": Says("Step between two azimuths of a map.", 5),
        "changes_per_year": Says("How many planes a year: 2, 4 or 12.", 4),
        "day": Says("Day of the month.", 10),
        "month": Says("Month of the year.", 5),
        "dirt_share": Says("Share of the light lost to dirt over the year.", 0.02),
        "mismatch_share": Says("Share of the energy lost because panels differ.", 0),
        "hottest_cell_c": Says("Hottest cell, for the operating voltage; where absent, that of the typical year.", 68),
        "rear_light_share": Says(
            "Light on the rear over light on the front in full sun, for panels that use it.", 0.05
        ),
        "facing_reflectance_share": Says(
            "Share of its light that the house or hill on the skyline throws back, onto panel and ground; 0 where "
            "absent, and what bright ones would add then raises the hopeful end, as the sun on them does in any case.",
            0.3,
        ),
        "facade_azimuth_deg": Says(
            "Which way the facade with slab, side walls or the house behind looks, clockwise from north; assumed where "
            "absent.",
            180,
        ),
        "building_height_m": Says(
            "Height of the building that the panels hang on, up to its roof edge; what is over them hides sky and sun.",
            18,
        ),
        "capacity_per_panel_n": Says(
            "Force that the maker states for all fixings of one panel together, square to the panel.", 2400
        ),
        "ballast_per_panel_kg": Says("Weights laid on the frame of one panel.", 40),
        "railing_height_m": Says("Height of the railing that the panels hang on or stand behind.", 1.1),
        "railing_length_m": Says("Length of the railing that this array's panels share.", 4.2),
        "low_lean_out_deg": Says("How far from upright the panel leans out at least; 0 where absent.", 0),
        "high_lean_out_deg": Says("How far from upright the fixing lets the panel lean out at most.", 25),
        "rated_power_w": Says("Rated power of one panel, as on its label.", 440),
        "open_circuit_voltage_v": Says("Open-circuit voltage of one panel (Voc on the label).", 39.4),
        "short_circuit_current_a": Says("Short-circuit current of one panel (Isc on the label).", 14.1),
        "max_power_voltage_v": Says("Voltage at rated power (Vmp on the label).", 32.9),
        "max_power_current_a": Says("Current at rated power (Imp on the label).", 13.38),
        "cells_in_series": Says("Cells in series in one panel; half-cut panels have half of the cells seen.", 54),
        "cells_visible": Says("Cells that are seen on one panel, whole or cut: rows times columns.", 60),
        "voc_coefficient_pct_per_k": Says("Change of the open-circuit voltage per kelvin, in per cent.", -0.26),
        "voc_coefficient_v_per_k": Says("Change of the open-circuit voltage per kelvin, in volts.", -0.1),
        "voc_coefficient_mv_per_k": Says("Change of the open-circuit voltage per kelvin, in millivolts.", -102),
        "isc_coefficient_pct_per_k": Says("Change of the short-circuit current per kelvin, in per cent.", 0.045),
        "isc_coefficient_a_per_k": Says("Change of the short-circuit current per kelvin, in amperes.", 0.006),
        "isc_coefficient_ma_per_k": Says("Change of the short-circuit current per kelvin, in milliamperes.", 6.3),
        "power_coefficient_pct_per_k": Says("Change of the rated power per kelvin, in per cent.", -0.31),
        "max_system_voltage_v": Says("Highest system voltage that the panel may be part of.", 1000),
        "string_fuse_a": Says("Fuse for direct current in each string of this array, where there is one.", 25),
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
        "grid_voltage_v": Says("Voltage of the grid that the inverter is made for, as on its plate.", 230),
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
        "cable_mm2": Says("Cross-section of the circuit's cable; 14 AWG is 2.08 mm2, 12 AWG 3.31, 10 AWG 5.26.", 1.5),
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
        "ghi_w_per_m2": Says("Light on level ground, mean of the step.", 412),
        "dni_w_per_m2": Says("Light straight from the sun, at right angles to it, mean of the step.", 610),
        "dhi_w_per_m2": Says("Light on level ground from all of the sky but the sun, mean of the step.", 120),
        "plane_w_per_m2": Says("Light on the plane of the panels, mean of the step.", 530),
        "air_c": Says("Air temperature, mean of the step.", 14.2),
        "wind_m_per_s": Says("Wind at the panels, mean of the step.", 2.1),
        "step_minutes": Says("Length of one step; an hour is a multiple of it.", 15),
        "log_step_minutes": Says("Length of one step of a log, up to a day.", 15),
        "irradiance_w_per_m2": Says("Light on the panel's own plane, as measured beside it.", 620),
        "irradiance_uncertainty_share": Says(
            "How far that may be off either way: some 0.05 of a reference cell, 0.15 of a hand-held light meter.", 0.15
        ),
        "cell_c": Says("Temperature of the cells, measured at the panel's back.", 31),
        "open_circuit_voltage_read_v": Says("Open-circuit voltage as the meter shows it, without its sign.", 36.1),
        "short_circuit_current_read_a": Says("Short-circuit current as the meter shows it, without its sign.", 8.4),
        "plus_to_frame_v": Says("Volts from the plus lead to the bare metal of the frame, without sign.", 0.2),
        "frame_to_minus_v": Says("Volts from the frame to the minus lead, without sign.", 0.1),
        "meter_input_mohm": Says("Input resistance of the voltmeter, from its manual.", 10),
        "bypass_forward_v": Says("What the diode test shows on the dark panel, red on minus, black on plus.", 0.9),
        "bypass_swapped_v": Says(
            "What the diode test shows with the leads swapped, red on plus; left out where it shows no value.", 0.9
        ),
        "current_limit_a": Says("The most amperes that the meter's fused current input bears.", 10),
        "voltage_limit_v": Says("The most volts d.c. that the meter bears.", 600),
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
        "freight_less": Says(
            "How much less than that it may be, where it is a guess; the bands become wider by it.", 0
        ),
        "freight_more": Says(
            "How much more than that it may be, where it is a guess; the bands become wider by it.", 0
        ),
        "registration": Says("What registering the set costs.", 0),
        "faulty_share": Says(
            "Share of second-hand panels that prove faulty. Each is bought once more; where that one is faulty too, "
            "its place stays empty and its energy is left out of the account.",
            0.1,
        ),
        "distance_km": Says("How far it is to what is advertised, one way.", 12),
        "delivery_cost": Says("What sending it costs, where you know better than the text.", 9),
        "price": Says("A price.", 45),
        "limit": Says("How many sets are listed at most.", 10),
        "quantity_available": Says("How many pieces are on offer.", 4),
        "panel_count": Says("How many panels.", 2),
        "fetching_per_km": Says("What a kilometre of driving costs, there and back counted.", 0.3),
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
        "logged_kwh": Says("Energy that a log holds.", 412.6),
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
            "Production up to this passes on to the home; what is above charges. 0: all of it; 5000: nothing.", 120
        ),
    }
)
