"""A door in fair sun, and a panel whose label was read, for the tests of this folder."""

from typing import Any

from service.core.pickup import Between, Door, Light, Multimeter, PanelReading, PanelSeen, Ratings, panels_seen

METER = Multimeter(current_limit_a=10.0, voltage_limit_v=600.0, clamps_dc=False)


def ratings(**changes: Any) -> Ratings:
    """Sixty cells, 40.6 V, 9.85 A, all read, new."""
    known: dict[str, Any] = {
        "open_circuit_voltage_v": Between.exactly(40.6),
        "short_circuit_current_a": Between.exactly(9.85),
        "voc_coefficient_pct_per_k": Between.exactly(-0.3),
        "isc_coefficient_pct_per_k": Between.exactly(0.05),
        "cells_in_series": Between.exactly(60.0),
        "sections": Between.exactly(3.0),
        "age_years": Between.exactly(0.0),
        "area_m2": Between.exactly(1.6),
        "voltage_known": True,
        "current_known": True,
        "connector": "locking_4mm",
    }
    return Ratings(**{**known, **changes})


def measured(w_per_m2: float, share: float = 0.05) -> Light:
    """Measured light."""
    low, high = w_per_m2 * (1 - share), w_per_m2 * (1 + share)
    return Light(w_per_m2=Between(low=low, likely=w_per_m2, high=high), origin="measured")


def sky(w_per_m2: float, askew: float | None = None) -> Light:
    """Guessed light, good to a third."""
    between = Between(low=0.67 * w_per_m2, likely=w_per_m2, high=1.33 * w_per_m2)
    return Light(w_per_m2=between, origin="sky", askew_w_per_m2=askew)


def door(light: Light | None = None, cell_c: float = 33.0, **changes: Any) -> Door:
    """The door; ``changes`` are of the ratings."""
    return Door(
        ratings=ratings(**changes),
        light=measured(720.0) if light is None else light,
        cell_c=Between(low=cell_c - 2, likely=cell_c, high=cell_c + 2),
        multimeter=METER,
    )


def reading(panel: str = "a", voc: float | None = None, isc: float | None = None, **more: Any) -> PanelReading:
    """One reading."""
    return PanelReading(panel=panel, open_circuit_voltage_v=voc, short_circuit_current_a=isc, **more)


def one(at: Door, *readings: PanelReading) -> PanelSeen:
    """What is said of the only panel."""
    [found] = panels_seen(at, readings)
    return found


def codes(seen: PanelSeen) -> list[str]:
    """The causes' codes."""
    return [cause.code for cause in seen.causes]
