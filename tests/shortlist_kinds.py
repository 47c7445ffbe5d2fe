"""Panels, inverters and requests of shortlists, for tests."""

from collections.abc import Mapping
from datetime import date
from functools import cache
from typing import Any

from service.core.completion import DefaultTables, inverter_alone, panel_alone
from service.core.shortlist import InverterKind, PanelKind
from service.data.local_rules import load_rule_cards
from service.data.prices import load_prices
from tests.panel_lists import invented_list

AS_OF = date(2026, 11, 25)
SHEET: dict[str, Any] = {
    "rated_power_w": 400, "open_circuit_voltage_v": 37.1, "short_circuit_current_a": 13.9, "max_power_voltage_v": 31.2,
    "max_power_current_a": 12.83, "cells_in_series": 54, "voc_coefficient_pct_per_k": -0.26,
    "power_coefficient_pct_per_k": -0.34,
}  # fmt: skip
INVERTER: dict[str, Any] = {
    "ac_power_w": 800, "input_count": 2,
    "inputs": [{"max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 22,
                "max_current_a": 15, "max_short_circuit_current_a": 22}],
}  # fmt: skip
HOME: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3, "rule_area": "DE", "coldest_air_c": -14},
    "household": {"demand_kwh_per_year": 1900, "stay_years": 8},
    "tariff": {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34,
                                               "export": "unpaid"}]},
    "money": {"years": 15, "discount_rate_share": 0.03},
    "places": [{"mount": "hung_on_rail", "count": 2, "plane": {"tilt_deg": 90, "azimuth_deg": 150}}],
    "as_of": "2026-11-25",
}  # fmt: skip


@cache
def tables() -> DefaultTables:
    """The tables that completion draws on, with an invented list of panels."""
    return DefaultTables(prices=load_prices(), rule_cards=load_rule_cards(), panels=invented_list())


def panel_of(given: Mapping[str, Any]) -> PanelKind:
    """A panel, completed."""
    panel, assumed = panel_alone(given, AS_OF, tables())
    return PanelKind(key=repr(given), given=given, panel=panel, assumed=assumed)


def inverter_of(given: Mapping[str, Any]) -> InverterKind:
    """An inverter, completed."""
    inverter, assumed = inverter_alone(given)
    return InverterKind(key=repr(given), given=given, inverter=inverter, assumed=assumed)


def panel_advert(name: str, each: float, *, power_w: float = 400, **more: Any) -> dict[str, Any]:
    """An advert of panels with a whole sheet, already read; ``more`` replaces parts of the reading or of the advert."""
    scale = power_w / SHEET["rated_power_w"]
    sheet = {**SHEET, "rated_power_w": power_w, "short_circuit_current_a": round(13.9 * scale, 3),
             "max_power_current_a": round(12.83 * scale, 3)}  # fmt: skip
    reading = {"kind": "panel", "quantity_available": 4, "price": {"value": each, "currency": "EUR", "basis": "each"},
               "condition": "unused", "delivery": {"kind": "pickup"}, "panel": sheet}  # fmt: skip
    outer = {key: more.pop(key) for key in ("distance_km", "delivery_cost", "fetched_at", "posted_on") if key in more}
    return {"id": name, "reading": {**reading, **more}, "distance_km": 10, **outer}


def inverter_advert(name: str, price: float, **more: Any) -> dict[str, Any]:
    """An advert of an inverter, already read."""
    reading = {"kind": "inverter", "quantity_available": 1, "price": {"value": price, "currency": "EUR",
                                                                      "basis": "each"},
               "condition": "new", "inverter": {**INVERTER, **more}}  # fmt: skip
    return {"id": name, "reading": reading, "delivery_cost": 8}
