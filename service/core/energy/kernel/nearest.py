"""What would thousands of planes yield, for a map or a ranking? Every table read at its nearest cell.

A year sums some 4000 hours, so that what a cell is wide cancels: one look-up does what lines between cells do in two.
Within 0.05 % of the plain chain (``tests/properties/test_kernel_promises.py``); figures that are told come from the
finer tables or from the plain chain.
"""

from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel.input_table import IRRADIANCES, STEP_W_PER_M2, TEMPERATURES, InputTable
from service.core.energy.kernel.place import PlaceRecord, Singles, cells_of, single
from service.core.energy.kernel.planes import RIM, OpenPlanes, OutputTable, after_snow, light_weights
from service.core.model.facts import Array
from service.core.model.place import Plane
from service.core.sky import modifier

# A cell is 2.5 W/m2 by 2 K (with 5 W/m2 a clipped year was 0.09 % off). All tables of a set fit a processor's near
# cache: larger ones cost more than they tell.
_HALVES, _KELVINS = 2, 2
_GLASS_BINS, _OUTPUT_BINS, _FLICKER_CLASSES = 2048, 1024, 32
_WARMTHS = -(-TEMPERATURES // _KELVINS)
_FLAT = (Plane(tilt_deg=0.0, azimuth_deg=0.0),)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NearestArray:
    """An array without hard shadows, at a place and on its input.

    Attributes:
        glass: what works of light from the sun by the cosine of incidence in bins; from the end backwards on a rear.
        beam: (n,) light from the sun at square incidence on a clean panel, in cells.
        half_warms: (n,) half of what it warms the cells by, in cells.
        dc_w: (irradiances * warmths,) by cell.
    """

    glass: Singles
    beam: Singles
    half_warms: Singles
    dc_w: Singles

    def dc_of(self, planes: OpenPlanes) -> Singles:
        """D.c. power of the array in each of these planes, (m, n)."""
        cosine = planes.normals @ planes.sun
        steps = np.abs(cosine)
        steps += cosine  # twice the cosine where the sun is in front, else nought
        steps *= self.half_warms
        steps += (planes.warms * np.float32(1.0 / _KELVINS)) @ planes.even_warms
        cosine *= np.float32(_GLASS_BINS)
        cells = self.glass.take(cells_of(cosine))
        cells *= self.beam
        cells += (planes.works * np.float32(_HALVES)) @ planes.even
        if planes.snow_share is not None:
            cells *= after_snow(planes.normals, planes.snow_share)
        if planes.beyond_table:
            np.minimum(cells, np.float32(_HALVES * IRRADIANCES - RIM), out=cells)
            np.clip(steps, np.float32(0.0), np.float32(_WARMTHS - RIM), out=steps)
        np.floor(cells, out=cells)
        cells *= np.float32(_WARMTHS)
        cells += steps
        return self.dc_w.take(cells_of(cells), mode="clip")


def nearest_array(
    array: Array, record: PlaceRecord, opened: OpenPlanes, table: InputTable, ground_reflectance_share: float
) -> NearestArray | None:
    """The array for planes opened like ``opened``; None where a cell is not enough.

    That is where power jumps, a window bends it within the table, or a hard shadow falls.
    """
    around = opened.around
    if table.jumps or table.tight or (around is not None and around.hard is not None):
        return None
    weights = light_weights(array, _FLAT, ground_reflectance_share)
    cosine = (np.arange(_GLASS_BINS + 2) + 0.5) / _GLASS_BINS
    front = cosine * modifier(np.minimum(cosine, 1.0))
    clean = _HALVES * (1.0 - array.dirt_share) / STEP_W_PER_M2
    at = (np.arange(_HALVES * IRRADIANCES) + 0.5) / _HALVES
    below = at.astype(np.intp)
    lines = (one.reshape(IRRADIANCES, TEMPERATURES) for one in (table.slope_w, table.base_w))
    slope, base = (one.take(below, axis=0) for one in lines)
    slope *= at[:, None].astype(np.float32)
    slope += base
    from_sun = record.from_sun_w_per_m2 if around is None else record.from_sun_w_per_m2 * around.open_share
    pairs = np.pad(slope, ((0, 0), (0, -TEMPERATURES % _KELVINS)), mode="edge")
    return NearestArray(
        glass=single(np.concatenate((front * weights.works, front[:0:-1] * weights.behind))),
        beam=single(from_sun * clean),
        half_warms=single(opened.beam_warms * (0.5 / _KELVINS)),
        dc_w=single(pairs.reshape(-1, _WARMTHS, _KELVINS).mean(axis=2).ravel()),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NearestOutput:
    """A.c. power under the limit by the d.c. power of all inputs in bins, for hours that come and go alike together.

    Attributes:
        ac_w: (classes * bins,), the bins of one class after those of another.
        bins_per_w: of d.c. power.
        first: (n,) where the bins of an hour's class begin.
    """

    ac_w: Singles
    bins_per_w: np.float32
    first: Singles

    def of(self, dc_w: Singles) -> Singles:
        """A.c. power, (m, n), of d.c. power of the same hours."""
        at = dc_w * self.bins_per_w
        at += self.first
        return self.ac_w.take(cells_of(at), mode="clip")


def nearest_output(output: OutputTable, record: PlaceRecord, up_share: float) -> NearestOutput:
    """The output of a set that runs this part of the time, in the hours of a place."""
    fine = output.ac_w[:-1]
    ac = np.append(fine.reshape(_OUTPUT_BINS, -1).mean(axis=1), (fine[-1], fine[-1]))
    ac[0] = 0.0
    flicker = np.zeros(record.air_c.size) if record.flicker_share is None else record.flicker_share
    classes = _FLICKER_CLASSES if flicker.any() else 1
    # As many hours in each class: a limit cuts the clear ones, which are many and flicker little.
    of_hour = np.empty(flicker.size, np.intp)
    of_hour[np.argsort(flicker)] = np.arange(flicker.size) * classes // max(flicker.size, 1)
    hours = np.maximum(np.bincount(of_hour, minlength=classes), 1)
    share = (np.bincount(of_hour, flicker, minlength=classes) / hours)[:, None]
    cut = np.minimum(ac * (1.0 + share), output.limit_w) + np.minimum(ac * (1.0 - share), output.limit_w)
    return NearestOutput(
        ac_w=single((cut * (0.5 * up_share)).ravel()),
        bins_per_w=np.float32(output.bins_per_w * _OUTPUT_BINS / fine.size),
        first=single((of_hour * ac.size).astype(np.float32)),
    )
