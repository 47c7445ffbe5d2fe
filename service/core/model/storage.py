"""What is known of a small battery?"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Storage:
    """A small battery, beside the set in the answer and no part of its outlay.

    ``coupling``: dc, between the panels and the inverter, or ac, on a socket of its own. ``charge_limit_w`` and
    ``discharge_limit_w`` are what it takes and gives at its terminals on that side; ``round_trip_share`` is given over
    taken there. ``max_input_current_a``: of each input of a box before the inverter; None: those of the inverter hold.
    ``max_input_voltage_v`` and ``max_short_circuit_current_a`` of such an input: None is unknown.
    With a ``meter_reader`` it follows the demand. Without, production up to ``charge_above_w`` passes on and what is
    above charges; while the set gives no more than that, it is topped up to ``night_feed_w``. A feed of 0 or a
    threshold of 5000 means that the box is left off; with a reader both are None. ``ageing_share_per_year`` is lost of
    ``usable_kwh``. ``amount``: its price, None where nobody said.
    """

    usable_kwh: float
    coupling: str
    charge_limit_w: float
    discharge_limit_w: float
    max_input_current_a: float | None
    round_trip_share: float
    standby_w: float
    meter_reader: bool
    night_feed_w: float | None
    charge_above_w: float | None
    ageing_share_per_year: float
    amount: float | None
    max_input_voltage_v: float | None = None
    max_short_circuit_current_a: float | None = None
