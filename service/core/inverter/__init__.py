"""How does d.c. become a.c.: the efficiency curve (``efficiency``), limit, night draw and no grid (``output``)?

And how much sooner does heat wear it out (``life``)?
"""

from service.core.inverter.efficiency import (
    WEIGHTINGS,
    Curve,
    EfficiencyCurve,
    PointCurve,
    curve_from_points,
    curve_through,
    weighted_efficiency,
)
from service.core.inverter.life import HALVING_K, SEAT_WARMER_K, life_over_shade
from service.core.inverter.output import Output, ac_from_dc, clipped, night_draw_kwh, output_of

__all__ = [
    "HALVING_K",
    "SEAT_WARMER_K",
    "WEIGHTINGS",
    "Curve",
    "EfficiencyCurve",
    "Output",
    "PointCurve",
    "ac_from_dc",
    "clipped",
    "curve_from_points",
    "curve_through",
    "life_over_shade",
    "night_draw_kwh",
    "output_of",
    "weighted_efficiency",
]
