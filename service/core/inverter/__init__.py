"""How does d.c. become a.c.: the efficiency curve (``efficiency``), limit, night draw and no grid (``output``)?"""

from service.core.inverter.efficiency import (
    WEIGHTINGS,
    Curve,
    EfficiencyCurve,
    PointCurve,
    curve_from_points,
    curve_through,
    weighted_efficiency,
)
from service.core.inverter.output import Output, ac_from_dc, clipped, night_draw_kwh, output_of

__all__ = [
    "WEIGHTINGS",
    "Curve",
    "EfficiencyCurve",
    "Output",
    "PointCurve",
    "ac_from_dc",
    "clipped",
    "curve_from_points",
    "curve_through",
    "night_draw_kwh",
    "output_of",
    "weighted_efficiency",
]
