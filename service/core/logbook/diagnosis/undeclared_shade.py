"""Does something stand before the sun that nobody declared: always in one sector of the sky, below one height?

Only the beam is hidden. For each of many sectors the blocked share is found that brings the course of the days nearest
to the log, the days' level being taken outside the sector.
"""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from service.core.logbook.diagnosis.compared import Compared
from service.core.logbook.diagnosis.frame import Parts
from service.core.logbook.diagnosis.set_model import dc_of_arrays
from service.core.model.hours import Floats

_EDGES_DEG = (-75.0, -55.0, -35.0, -15.0, 15.0, 35.0, 55.0, 75.0)  # from the noon sun; before it eastwards
_BELOW_DEG = (18.0, 28.0, 38.0, 48.0, 60.0)
_LEAST_OUTSIDE = 0.2  # of the energy has to come from outside the sector


def shade_evidence(compared: Compared, stated_misfit: float) -> Mapping[str, float]:
    """The sector that explains most.

    Returns:
        ``shade_gain``: logarithm of misfits, without over with it; ``shade_blocked_share`` of the beam;
        ``shade_energy_share`` of the days' energy that it takes; ``shade_side``: -1 in the morning, 1 after noon;
        ``shade_edge_deg`` from the noon sun; ``shade_below_deg``.
    """
    blank = {"shade_gain": 0.0, "shade_blocked_share": 0.0, "shade_energy_share": 0.0, "shade_side": 0.0,
             "shade_edge_deg": 0.0, "shade_below_deg": 0.0}  # fmt: skip
    total = float(compared.weight @ compared.power_w)
    if total <= 0.0:
        return blank
    full, beam = _full_and_beam(compared)
    side, height = side_and_height(compared.parts, compared.rows.size)
    best = (stated_misfit, 0.0, 0.0, 0.0, 0.0, 0.0)
    for edge in _EDGES_DEG:
        sector = side < edge if edge < 0.0 else side > edge
        for below in _BELOW_DEG:
            inside = sector & (height < below)
            found = _blocked(compared, full, beam, inside, total)
            if found is not None and found[0] < best[0]:
                best = (*found, float(np.sign(edge)), edge, below)
    misfit, blocked, share, sign, edge, below = best
    return {
        "shade_gain": float(np.log(max(stated_misfit, 1e-3) / max(misfit, 1e-3))),
        "shade_blocked_share": blocked, "shade_energy_share": share, "shade_side": sign, "shade_edge_deg": edge,
        "shade_below_deg": below,
    }  # fmt: skip


def side_and_height(parts: Parts, steps: int) -> tuple[Floats, Floats]:
    """Where the sun stands in each step (steps,), degrees: from noon, eastwards of it below 0; over the horizon."""
    count = np.maximum(np.bincount(parts.at, minlength=steps), 1)
    height = np.bincount(parts.at, 90.0 - parts.zenith_deg, minlength=steps) / count
    noon = 180.0 if _sun_in_south(parts) else 0.0
    turn = (parts.azimuth_deg - noon + 180.0) % 360.0 - 180.0
    side = np.bincount(parts.at, turn if noon else -turn, minlength=steps) / count
    return side, height


def _sun_in_south(parts: Parts) -> bool:
    """Does the sun stand in the south at noon?"""
    high = parts.zenith_deg < np.quantile(parts.zenith_deg, 0.2)
    return bool(np.cos(np.deg2rad(parts.azimuth_deg[high])).mean() < 0.0)


def _full_and_beam(compared: Compared) -> tuple[Floats, Floats]:
    """Power of the steps before the limit as stated, and what the light from the sun's direction adds to it."""
    dark = replace(compared.scene.daylight, from_sun_w_per_m2=np.zeros_like(compared.scene.daylight.from_sun_w_per_m2))
    without = compared.free_w(np.asarray(sum(dc_of_arrays(compared.model, replace(compared.scene, daylight=dark)))))
    full = compared.stated_w()
    return compared.in_steps(full), compared.in_steps(full - without)


def _blocked(
    compared: Compared,
    full: Floats,
    beam: Floats,
    inside: np.ndarray[tuple[int, ...], np.dtype[np.bool_]],
    total: float,
) -> tuple[float, float, float] | None:
    """Misfit, blocked share and share of energy of one sector; None where it leaves too little to compare with."""
    limit, weight, power, day = compared.model.limit_w, compared.weight, compared.power_w, compared.day
    outside = weight * ~inside * (full < 0.93 * limit)
    free = np.bincount(day, outside * full, minlength=compared.days)
    level = np.divide(
        np.bincount(day, outside * power, minlength=compared.days), free, out=np.ones(compared.days), where=free > 0.0
    )
    if float(weight @ (full * ~inside)) < _LEAST_OUTSIDE * float(weight @ full):
        return None
    expected, hidden = full * level[day], beam * level[day] * inside
    square = float(weight @ hidden**2)
    if square <= 0.0:
        return None
    blocked = float(np.clip((weight * hidden) @ (expected - power) / square, 0.0, 1.0))
    left = np.minimum(expected - blocked * hidden, limit)
    misfit = float(weight @ np.abs(power - left)) / total
    return misfit, blocked, blocked * float(weight @ hidden) / max(float(weight @ expected), 1e-9)
