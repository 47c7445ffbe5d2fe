"""What does the inverter send to the socket? Conversion, then the limit that it is set to; nothing without a grid."""

from dataclasses import dataclass

import numpy as np

from service.core.inverter.efficiency import Curve
from service.core.model.hours import Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Output:
    """Where the d.c. power goes, W, shape (n,): ``ac_w`` + ``conversion_loss_w`` + ``clipped_w`` + ``not_drawn_w``."""

    ac_w: Floats
    conversion_loss_w: Floats
    clipped_w: Floats
    not_drawn_w: Floats


def ac_from_dc(dc_w: Floats, ac_power_w: float, curve: Curve) -> Floats:
    """A.c. power before any limit, W: d.c. power of all inputs times the efficiency at d.c. over rated a.c. power.

    Args:
        dc_w: sum of the inputs, W, (n,), at least 0.
        ac_power_w: rated a.c. power, W, above 0; not the limit that the inverter is set to.
        curve: efficiency by load.

    Heat is not modelled: no data sheet in the request states a derating.
    """
    dc = np.asarray(dc_w, np.float64)
    return np.asarray(dc * curve.efficiency_share(dc / ac_power_w), np.float64)


def clipped(ac_w: Floats, limit_w: float, flicker_share: Floats | None = None) -> tuple[Floats, Floats]:
    """A.c. power under the limit, and what the limit cuts off, both W a.c., (n,).

    Args:
        ac_w: mean power of each hour before the limit.
        limit_w: the limit.
        flicker_share: standard deviation of the power within each hour over its mean, (n,); None: steady. Half of the
            hour is then so much above the mean and half so much below, and the limit cuts each half.

    >>> [part.tolist() for part in clipped(np.array([500.0]), 600.0, np.array([0.4]))]
    [[450.0], [50.0]]
    """
    if flicker_share is None:
        under = np.minimum(ac_w, limit_w)
    else:
        step = ac_w * np.minimum(flicker_share, 1.0)
        above = np.maximum(ac_w + step - limit_w, 0.0) + np.maximum(ac_w - step - limit_w, 0.0)
        under = np.minimum(ac_w - 0.5 * above, limit_w)
    return under, ac_w - under


def output_of(
    dc_w: Floats,
    ac_power_w: float,
    limit_w: float,
    curve: Curve,
    *,
    grid: bool = True,
    flicker_share: Floats | None = None,
) -> Output:
    """All that becomes of the d.c. power of the inputs together; ``flicker_share`` as for ``clipped``.

    Without a grid the inverter stops (loss of mains, EN 50549-1, from memory): no output, and the d.c. power is not
    drawn, which is no loss of conversion.
    """
    dc = np.asarray(dc_w, np.float64)
    nothing = np.zeros_like(dc)
    if not grid:
        return Output(ac_w=nothing, conversion_loss_w=nothing, clipped_w=nothing, not_drawn_w=dc)
    converted = ac_from_dc(dc, ac_power_w, curve)
    under, cut = clipped(converted, limit_w, flicker_share)
    return Output(ac_w=under, conversion_loss_w=dc - converted, clipped_w=cut, not_drawn_w=nothing)


def night_draw_kwh(dc_w: Floats, night_draw_w: float) -> float:
    """Energy that the inverter takes from the socket in the hours without d.c. power, kWh over the rows (hours)."""
    return float(np.count_nonzero(np.asarray(dc_w) <= 0) * night_draw_w / 1000)
