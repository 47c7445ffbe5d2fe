"""Sparse requests as a caller sends them, and their completion at the made-up Baltic climate, for tests."""

from copy import deepcopy
from datetime import date
from typing import Any

from service.core.completion import Completed, DefaultTables, complete
from service.core.model.place_facts import PlaceFacts
from service.core.model.price import HouseholdPrice, Prices
from service.data.panel_list import load_panel_list
from tests.climates import climate
from tests.skies import mixed_year

AS_OF = date(2026, 11, 25)
LISTED = load_panel_list()

SMALLEST: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
    "arrays": [{"panel": {"rated_power_w": 410}}],
    "inverter": {"ac_power_w": 600},
}

FULL: dict[str, Any] = {
    "site": {
        "latitude_deg": 54.2, "longitude_deg": 12.3, "elevation_m": 8, "time_zone": "Europe/Berlin", "rule_area": "DE",
        "ground_reflectance_share": 0.2, "terrain": "suburb", "coldest_air_c": -14,
        "basic_wind_velocity_m_per_s": 27.5, "people_below": True, "children": False,
    },
    "arrays": [{
        "name": "left", "input": 1, "count": 2, "joined": "parallel", "mount": "hung_on_rail",
        "plane": {"tilt_deg": 90, "azimuth_deg": 150}, "orientation": "upright", "height_above_ground_m": 11,
        "skyline": [{"azimuth_deg": at, "height_deg": high} for at, high in ((60, 0), (90, 12), (120, 0))],
        "overhang": {"above_top_edge_m": 1.6, "reaches_out_m": 0.3},
        "side_walls": [{"side": "left", "distance_m": 0.4, "reaches_out_m": 1.2}],
        "cover": {"material": "glass", "light_through_share": 0.8},
        "shade": [{"cause": "tree", "edge": "soft", "months": [5, 6, 7, 8, 9], "from_clock": "15:00",
                   "to_clock": "18:00", "blocked_share": 0.6}],
        "hand_rail": {"above_top_edge_m": 0.02, "distance_m": 0.1, "thickness_m": 0.05},
        "row_in_front": {"above_bottom_edge_m": 0.3, "distance_m": 2}, "facing_reflectance_share": 0.2,
        "dirt_share": 0.02, "mismatch_share": 0, "lead_length_m": 3, "lead_mm2": 4,
        "string_fuse_a": 25, "hottest_cell_c": 68, "rear_light_share": 0.05, "count_rear_light": False,
        "fixing": {"building_height_m": 18, "capacity_per_panel_n": 2400, "ballast_per_panel_kg": 0,
                   "railing_height_m": 1.1, "railing_length_m": 4.2},
        "panel": {
            "rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1,
            "max_power_voltage_v": 32.9, "max_power_current_a": 13.38, "cells_in_series": 54,
            "voc_coefficient_pct_per_k": -0.26, "isc_coefficient_pct_per_k": 0.045,
            "power_coefficient_pct_per_k": -0.31, "max_system_voltage_v": 1000, "max_series_fuse_a": 25,
            "cell_kind": "mono", "bifaciality_share": 0, "length_mm": 1722, "width_mm": 1134, "weight_kg": 21.5,
            "age_years": 0, "power_tolerance_pct": [0, 3], "connector": "locking_4mm",
            "connector_make": "Kranich K4", "glass": "glass_foil", "half_cells": True,
            "history": "unused", "model_code": "HL-440",
        },
    }],
    "inverter": {
        "ac_power_w": 800, "set_limit_w": 600, "input_count": 2,
        "inputs": [{
            "max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 22,
            "max_current_a": 14, "max_short_circuit_current_a": 18, "max_panel_power_w": 600,
            "max_panel_power_kind": "recommended", "connector_pairs": 1, "max_input_power_w": 500,
        }],
        "weighted_efficiency_share": 0.955, "efficiency_weighting": "european", "night_draw_w": 0.1,
        "seat": "behind_panel", "certificates": ["EN 50549-1"], "export_limit_w": 600, "grid_voltage_v": 230,
        "connector_make": "Kranich K4",
    },
    "socket_circuit": {
        "plug": "household", "breaker_a": 16, "voltage_v": 230, "cable_mm2": 1.5, "laying": "in_conduit",
        "ambient_c": 30, "dedicated": False, "residual_current_device": "type_a", "lead_length_m": 10, "lead_mm2": 1.5,
        "feeder_length_m": 0, "indoors": True, "lead_route": "window", "shared_neutral": False,
        "other_sets": [{"ac_power_w": 300, "panel_power_w": 380, "same_circuit": False}],
    },
    "downtime_days_per_year": 2,
    "household": {
        "demand_kwh_per_year": 1900, "persons": 2, "always_on_w": 60,
        "at_home": {"weekday": [[6, 8], [17, 23]], "weekend": [[8, 23]]},
        "machines": [{"name": "washing", "kwh_a_run": 0.9, "runs_per_week": 4, "usual_hour": 19}], "stay_years": 6,
    },
    "meter": {"counts": "two_way", "sums_phases": True, "netting": "instant"},
    "tariff": {"currency": "EUR", "periods": [
        {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid", "export_price_per_kwh": 0.0}]},
    "outlay": {
        "items": [
            {"what": "panels", "amount": 96, "second_hand": True},
            {"what": "inverter", "amount": 149, "second_hand": False},
        ],
        "freight": 12, "fetching": {"km": 40, "per_km": 0.3, "trips": 2, "hours": 3, "per_hour": 10},
        "registration": 5,
    },
    "money": {"years": 15, "discount_rate_share": 0.03, "price_growth_share": 0.01, "ageing_share_per_year": 0.005,
              "inverter_swap": {"year": 11, "amount": 130}, "resale_share": 0, "running_cost_per_year": 0},
    "storage": {
        "usable_kwh": 1.2, "coupling": "dc", "charge_limit_w": 600, "discharge_limit_w": 600,
        "max_input_current_a": 14, "round_trip_share": 0.9, "standby_w": 4, "meter_reader": False,
        "night_feed_w": 120, "charge_above_w": 120, "ageing_share_per_year": 0.02, "amount": 350,
    },
}  # fmt: skip

PRICES = Prices(
    read_on="2026-11-25",
    household=(
        HouseholdPrice(
            area="DE", price_per_kwh=0.38, currency="EUR", period="2025-S2", previous_period=None,
            previous_price_per_kwh=None, fixed_charges_inside=True, not_for=(), source="made up", note="",
        ),
    ),
    export_examples=(),
)  # fmt: skip


def asked(given: dict[str, Any], **changes: Any) -> Completed:
    """The request completed; ``country``, ``time_zone``, ``sky``, ``rule_cards`` or the climate's fields changed."""
    country = changes.pop("country", "DE")
    time_zone = changes.pop("time_zone", "Europe/Berlin")
    sky = changes.pop("sky", None) or mixed_year(54.2, 12.3)
    facing = changes.pop("facing", None)
    tables = DefaultTables(prices=PRICES, rule_cards=changes.pop("rule_cards", {}), panels=LISTED)
    place = PlaceFacts(climate=climate(**changes), time_zone=time_zone, country=country)
    return complete(given, place, sky, tables, AS_OF, facing=facing)


def with_panel(**panel: Any) -> dict[str, Any]:
    """The smallest request with these facts of its panel, upright to the south."""
    request = deepcopy(SMALLEST)
    request["arrays"][0] |= {"plane": {"tilt_deg": 90, "azimuth_deg": 180}, "mount": "wall"}
    request["arrays"][0]["panel"] |= panel
    return request


def with_inverter(**inverter: Any) -> dict[str, Any]:
    """The smallest request with these facts of its inverter."""
    request = with_panel()
    request["inverter"] |= inverter
    return request


def with_array(**array: Any) -> dict[str, Any]:
    """The smallest request with its array set up so; ``plane`` and ``mount`` only as given."""
    request = deepcopy(SMALLEST)
    request["arrays"][0] |= array
    return request
