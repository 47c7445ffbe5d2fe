"""Within which bounds does a number make sense? Stated once, by field name: one name, one shape, everywhere."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

# A slip of a comma, of a unit, or a sum taken for one: so far beyond its bounds a figure may still be told by somebody.
_SLIP = 100.0


@dataclass(frozen=True, slots=True)
class Bounds:
    """The inclusive range that a field accepts, and its unit ("" for a share or a count)."""

    low: float
    high: float
    unit: str = ""
    whole: bool = False

    def hold(self, value: float) -> bool:
        """Is the value one that a request takes?"""
        return self.low <= value <= self.high

    def are_missed(self, value: float) -> bool:
        """Is it out of bounds, but as an advert may tell it: by no more than a slip, and on their side of nought?

        >>> [BOUNDS["rated_power_w"].are_missed(watts) for watts in (3950.0, 395.0, 1e9, 0.0, -400.0)]
        [True, False, False, False, False]
        """
        if self.hold(value) or (self.low > 0 and value <= 0):
            return False
        return _SLIP * min(self.low, 0.0) <= value <= _SLIP * max(self.high, 0.0)


BOUNDS: Mapping[str, Bounds] = MappingProxyType(
    {
        # place and plane
        "latitude_deg": Bounds(-90, 90, "deg"),
        "longitude_deg": Bounds(-180, 180, "deg"),
        "elevation_m": Bounds(-430, 6000, "m"),
        "ground_reflectance_share": Bounds(0, 1),
        "coldest_air_c": Bounds(-70, 40, "C"),
        "basic_wind_velocity_m_per_s": Bounds(10, 80, "m/s"),
        "tilt_deg": Bounds(0, 90, "deg"),
        "azimuth_deg": Bounds(0, 360, "deg"),
        "height_deg": Bounds(0, 90, "deg"),
        "tilt_step_deg": Bounds(1, 15, "deg"),
        "azimuth_step_deg": Bounds(1, 45, "deg"),
        "changes_per_year": Bounds(2, 12, whole=True),
        # array and what stands around it
        "input": Bounds(1, 8, whole=True),
        "count": Bounds(1, 12, whole=True),
        "height_above_ground_m": Bounds(0, 300, "m"),
        "above_top_edge_m": Bounds(0, 20, "m"),
        "above_bottom_edge_m": Bounds(0, 20, "m"),
        "thickness_m": Bounds(0.005, 0.5, "m"),
        "reaches_out_m": Bounds(0, 20, "m"),
        "distance_m": Bounds(0, 50, "m"),
        "light_through_share": Bounds(0, 1),
        "blocked_share": Bounds(0, 1),
        "month": Bounds(1, 12, whole=True),
        "day": Bounds(1, 31, whole=True),
        "dirt_share": Bounds(0, 0.9),
        "mismatch_share": Bounds(0, 0.9),
        "hottest_cell_c": Bounds(0, 120, "C"),
        "rear_light_share": Bounds(0, 1),
        "facing_reflectance_share": Bounds(0, 1),
        "facade_azimuth_deg": Bounds(0, 360, "deg"),
        # fixing
        "building_height_m": Bounds(0, 300, "m"),
        "capacity_per_panel_n": Bounds(10, 100_000, "N"),
        "ballast_per_panel_kg": Bounds(0, 2000, "kg"),
        "railing_height_m": Bounds(0.2, 3, "m"),
        "railing_length_m": Bounds(0.2, 100, "m"),
        "low_lean_out_deg": Bounds(0, 90, "deg"),
        "high_lean_out_deg": Bounds(0, 90, "deg"),
        # panel
        "rated_power_w": Bounds(5, 1000, "W"),
        "open_circuit_voltage_v": Bounds(1, 200, "V"),
        "short_circuit_current_a": Bounds(0.1, 40, "A"),
        "max_power_voltage_v": Bounds(1, 200, "V"),
        "max_power_current_a": Bounds(0.1, 40, "A"),
        "cells_in_series": Bounds(1, 300, whole=True),
        "cells_visible": Bounds(1, 600, whole=True),
        "voc_coefficient_pct_per_k": Bounds(-1, 0, "%/K"),
        "voc_coefficient_v_per_k": Bounds(-1, 0, "V/K"),
        "voc_coefficient_mv_per_k": Bounds(-1000, 0, "mV/K"),
        "isc_coefficient_pct_per_k": Bounds(-0.2, 0.5, "%/K"),
        "isc_coefficient_a_per_k": Bounds(-0.05, 0.1, "A/K"),
        "isc_coefficient_ma_per_k": Bounds(-50, 100, "mA/K"),
        "power_coefficient_pct_per_k": Bounds(-1, 0, "%/K"),
        "max_system_voltage_v": Bounds(50, 2000, "V"),
        "string_fuse_a": Bounds(1, 60, "A"),
        "max_series_fuse_a": Bounds(1, 60, "A"),
        "bifaciality_share": Bounds(0, 1),
        "length_mm": Bounds(100, 3000, "mm"),
        "width_mm": Bounds(100, 2000, "mm"),
        "weight_kg": Bounds(0.5, 60, "kg"),
        "age_years": Bounds(0, 60, "a"),
        "power_tolerance_pct": Bounds(-20, 20, "%"),
        # inverter
        "ac_power_w": Bounds(50, 5000, "W"),
        "set_limit_w": Bounds(0, 5000, "W"),
        "export_limit_w": Bounds(0, 5000, "W"),
        "grid_voltage_v": Bounds(90, 480, "V"),
        "input_count": Bounds(1, 8, whole=True),
        "max_input_voltage_v": Bounds(10, 1500, "V"),
        "tracking_min_v": Bounds(5, 1500, "V"),
        "tracking_max_v": Bounds(5, 1500, "V"),
        "start_voltage_v": Bounds(5, 1500, "V"),
        "max_current_a": Bounds(0.5, 60, "A"),
        "max_short_circuit_current_a": Bounds(0.5, 100, "A"),
        "max_panel_short_circuit_current_a": Bounds(0.5, 100, "A"),
        "max_panel_power_w": Bounds(20, 5000, "W"),
        "max_input_power_w": Bounds(20, 5000, "W"),
        "connector_pairs": Bounds(1, 8, whole=True),
        "weighted_efficiency_share": Bounds(0.5, 0.999),
        "night_draw_w": Bounds(0, 20, "W"),
        # socket circuit and leads
        "breaker_a": Bounds(1, 125, "A"),
        "voltage_v": Bounds(90, 440, "V"),
        "cable_mm2": Bounds(0.5, 50, "mm2"),
        "ambient_c": Bounds(-20, 60, "C"),
        "lead_length_m": Bounds(0, 200, "m"),
        "lead_mm2": Bounds(0.5, 50, "mm2"),
        "feeder_length_m": Bounds(0, 500, "m"),
        "panel_power_w": Bounds(0, 20000, "W"),
        "downtime_days_per_year": Bounds(0, 365, "d"),
        # home, tariff, money
        "demand_kwh_per_year": Bounds(0, 100000, "kWh"),
        "persons": Bounds(1, 20, whole=True),
        "always_on_w": Bounds(0, 5000, "W"),
        "kwh_a_run": Bounds(0, 50, "kWh"),
        "runs_per_week": Bounds(0, 100),
        "usual_hour": Bounds(0, 23, "h", whole=True),
        "hour": Bounds(0, 24, "h"),
        "stay_years": Bounds(0, 50, "a"),
        "values_w": Bounds(0, 100000, "W"),
        "step_minutes": Bounds(1, 60, "min", whole=True),
        "log_step_minutes": Bounds(1, 1440, "min", whole=True),
        # weather of the caller's own; sensors read a little below nought at night
        "ghi_w_per_m2": Bounds(-50, 1800, "W/m2"),
        "dni_w_per_m2": Bounds(-50, 1500, "W/m2"),
        "dhi_w_per_m2": Bounds(-50, 1200, "W/m2"),
        "plane_w_per_m2": Bounds(-50, 2000, "W/m2"),
        "air_c": Bounds(-80, 60, "C"),
        "wind_m_per_s": Bounds(0, 80, "m/s"),
        "filled_share": Bounds(0, 1),
        # at the seller's door: what a meter shows may be nought
        "irradiance_w_per_m2": Bounds(0, 1500, "W/m2"),
        "irradiance_uncertainty_share": Bounds(0, 1),
        "cell_c": Bounds(-60, 110, "C"),
        "open_circuit_voltage_read_v": Bounds(0, 300, "V"),
        "short_circuit_current_read_a": Bounds(0, 60, "A"),
        "plus_to_frame_v": Bounds(0, 300, "V"),
        "frame_to_minus_v": Bounds(0, 300, "V"),
        "meter_input_mohm": Bounds(0.01, 100, "megohm"),  # 10000, that is in kilohms, would clear any leak
        "bypass_forward_v": Bounds(0, 10, "V"),
        "bypass_swapped_v": Bounds(0, 100, "V"),
        "current_limit_a": Bounds(0, 1000, "A"),
        "voltage_limit_v": Bounds(1, 2000, "V"),
        "import_price_per_kwh": Bounds(0, 1000, "money/kWh"),
        "export_price_per_kwh": Bounds(-1000, 1000, "money/kWh"),
        "import_prices_per_kwh": Bounds(-1000, 1000, "money/kWh"),
        "export_prices_per_kwh": Bounds(-1000, 1000, "money/kWh"),
        "fee_per_year": Bounds(0, 100_000, "money/a"),
        "fee_per_kva_year": Bounds(0, 100_000, "money/kVA a"),
        "export_tax_share": Bounds(0, 1),
        "amount": Bounds(-1_000_000, 1_000_000, "money"),
        "freight": Bounds(0, 1_000_000, "money"),
        "freight_less": Bounds(0, 1_000_000, "money"),
        "freight_more": Bounds(0, 1_000_000, "money"),
        "registration": Bounds(0, 1_000_000, "money"),
        "faulty_share": Bounds(0, 0.5),
        "fetching_per_km": Bounds(0, 1000, "money/km"),
        "distance_km": Bounds(0, 1600, "km"),
        "delivery_cost": Bounds(0, 100_000, "money"),
        "price": Bounds(0, 1_000_000, "money"),
        "limit": Bounds(1, 60, whole=True),
        "quantity_available": Bounds(1, 5000, whole=True),
        "panel_count": Bounds(1, 4, whole=True),
        "km": Bounds(0, 5000, "km"),
        "per_km": Bounds(0, 1000, "money/km"),
        "trips": Bounds(1, 20, whole=True),
        "hours": Bounds(0, 200, "h"),
        "per_hour": Bounds(0, 10_000, "money/h"),
        "years": Bounds(1, 40, "a", whole=True),
        "discount_rate_share": Bounds(-0.2, 1),
        "price_growth_share": Bounds(-0.5, 0.5),
        "ageing_share_per_year": Bounds(0, 0.2),
        "year": Bounds(1, 40, "a", whole=True),
        "resale_share": Bounds(0, 1),
        "running_cost_per_year": Bounds(0, 100_000, "money"),
        "year_kwh": Bounds(0, 1_000_000, "kWh"),
        "logged_kwh": Bounds(0, 1_000_000, "kWh"),
        "night_draw_kwh": Bounds(0, 200, "kWh"),
        "self_used_share": Bounds(0, 1),
        # storage
        "usable_kwh": Bounds(0.1, 20, "kWh"),
        "charge_limit_w": Bounds(10, 5000, "W"),
        "discharge_limit_w": Bounds(10, 5000, "W"),
        "max_input_current_a": Bounds(0.5, 60, "A"),
        "round_trip_share": Bounds(0.3, 1),
        "standby_w": Bounds(0, 100, "W"),
        "night_feed_w": Bounds(0, 5000, "W"),
        "charge_above_w": Bounds(0, 5000, "W"),
    }
)
