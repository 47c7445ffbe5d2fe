"""What is a read advert? Values only, and the names of what it may claim."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

CLAIMS = (
    "ac_power_w", "bifacial", "cells_in_series", "condition", "defect", "delivery", "input_count", "least_quantity",
    "length_mm", "max_current_a", "max_input_voltage_v", "max_power_current_a", "max_power_voltage_v",
    "max_short_circuit_current_a", "open_circuit_voltage_v", "panel_count", "power_coefficient_pct_per_k", "price",
    "quantity_available", "rated_power_w", "shipping_cost", "short_circuit_current_a", "start_voltage_v", "technology",
    "tracking_max_v", "tracking_min_v", "voc_coefficient_pct_per_k", "weight_kg", "width_mm",
)  # fmt: skip
DEFECTS = (
    "backsheet_damage", "broken_display", "broken_junction_box", "cosmetic", "cracked_glass", "dead", "dead_input",
    "delamination", "discolouration", "hail_damage", "missing_connector", "missing_label", "missing_lead",
    "short_cable",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Advert:
    """An advert as it was sent."""

    title: str
    body: str
    price_text: str | None = None
    language: str | None = None


class Claim(NamedTuple):
    """One thing that an advert says: ``what`` is one of ``CLAIMS``, its ``value`` in ``unit``.

    It stands in code points ``start`` to ``end`` of a field as sent.
    """

    what: str
    value: float | str | bool
    unit: str
    words: str
    field: str
    start: int
    end: int
    sureness_share: float


class Price(NamedTuple):
    """As asked. ``basis``: each, lot, set, unknown. ``each``: for one piece or set; ``per_watt`` of one panel."""

    value: float | None = None
    currency: str | None = None
    basis: str = "unknown"
    each: float | None = None
    per_watt: float | None = None


_NO_PRICE = Price()
_UNTOLD: Mapping[str, float] = {}


class Reading(NamedTuple):
    """What an advert claims. ``panel`` and ``inverter`` hold the names of a request; what is not said is not there.

    ``least_quantity``: the fewest pieces that are sold together; ``panel_count``: panels in one set.
    """

    kind: str
    is_offer: bool
    language: str
    claims: tuple[Claim, ...] = ()
    quantity_available: int | None = None
    least_quantity: int | None = None
    panel_count: int | None = None
    price: Price = _NO_PRICE
    condition: str = "unknown"
    defects: tuple[str, ...] = ()
    delivery: str = "unknown"
    shipping_cost: float | None = None
    doubts: tuple[str, ...] = ()
    panel: Mapping[str, float | str] = _UNTOLD
    inverter: Mapping[str, float] = _UNTOLD
    technology: str | None = None
    bifacial: bool | None = None
