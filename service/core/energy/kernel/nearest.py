"""What would thousands of planes yield, for a map or a ranking? Every table read at its nearest cell.

A year sums some 4000 hours, so that what a cell is wide cancels. Cells are twice as warm as those of the finer tables,
bins of the glass and of the output wider, and hours that come and go alike share the output's.
Within 0.05 % of the plain chain (``tests/properties/test_kernel_promises.py``); figures that are told come from the
finer tables or from the plain chain.
"""

from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel.input_table import IRRADIANCES, STEP_W_PER_M2, TEMPERATURES, InputTable
from service.core.energy.kernel.output_table import OutputTable
from service.core.energy.kernel.place import PlaceRecord, Singles, cells_of, single
from service.core.energy.kernel.planes import BINS, FRONT, REAR, RIM, OpenPlanes, light_weights
from service.core.model.facts import Array
from service.core.model.place import Plane

# A cell is 2.5 W/m2 by 2 K, a bin of the glass three of the finer table. All tables of a set fit a processor's near
# cache: larger ones cost more than they tell.
_KELVINS, _GLASS = 2, 3
_OUTPUT_BINS, _FLICKER_CLASSES = 1024, 32
_WARMTHS = -(-TEMPERATURES // _KELVINS)
_FLAT = (Plane(tilt_deg=0.0, azimuth_deg=0.0),)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NearestArray:
    """An array without hard shadows, at a place and on its input.

    Attributes:
        glass: what works of light from the sun by the cosine of incidence, -1 to 1, in bins: behind a plane on a rear.
        beam: (n,) light from the sun at square incidence on a clean panel, in cells.
        beam_warms, edge_warms: (n,) as of ``OpenPlanes``, in cells.
        by_cell_w: (irradiances * warmths,) power over the light in cells, by cell.
    """

    glass: Singles
    beam: Singles
    beam_warms: Singles
    edge_warms: Singles
    by_cell_w: Singles

    def dc_of(self, planes: OpenPlanes) -> Singles:
        """D.c. power of the array in each of these planes, (m, n)."""
        turned = np.multiply(planes.facing, np.float32(1.0 / _GLASS)) @ planes.sun
        cells = self.glass.take(cells_of(turned), mode="wrap")
        cells *= self.beam
        turned *= self.beam_warms
        steps = np.maximum(turned, self.edge_warms, out=turned)
        planes.darken(cells, steps, _KELVINS)
        cells += planes.works @ planes.even
        steps += (planes.warms * np.float32(1.0 / _KELVINS)) @ planes.even_warms
        if planes.snow is not None:
            cells *= planes.snow.leaves(planes.up)
        if planes.beyond_table:
            np.minimum(cells, np.float32(IRRADIANCES - RIM), out=cells)
            np.clip(steps, np.float32(0.0), np.float32(_WARMTHS - RIM), out=steps)
        at = np.floor(cells)
        at *= np.float32(_WARMTHS)
        at += steps
        power = self.by_cell_w.take(cells_of(at), mode="wrap")
        power *= cells
        return power


def nearest_array(
    array: Array, record: PlaceRecord, opened: OpenPlanes, table: InputTable, ground_reflectance_share: float
) -> NearestArray | None:
    """The array for planes opened like ``opened``; None where a cell is not enough.

    That is where power jumps, a window bends it within the table, or a hard shadow falls.
    """
    around = opened.around
    if table.jumps or table.tight or (around is not None and around.apart is not None and around.apart.by_clock):
        return None
    weights = light_weights(array, _FLAT, ground_reflectance_share)
    clean = (1.0 - array.dirt_share) / STEP_W_PER_M2
    by_step = table.by_step_w.reshape(IRRADIANCES, TEMPERATURES)
    glass, behind = (table[: 2 * BINS].reshape(-1, _GLASS).mean(axis=1) for table in (FRONT, REAR))
    glass = glass * weights.works + behind * weights.behind
    from_sun = record.from_sun_w_per_m2 if around is None else record.from_sun_w_per_m2 * around.open_share
    pairs = np.pad(by_step, ((0, 0), (0, -TEMPERATURES % _KELVINS)), mode="edge")
    return NearestArray(
        glass=single(np.append(glass, glass[-1])),  # square incidence may be rounded to the next bin
        beam=single(from_sun * clean),
        beam_warms=single(opened.beam_warms * (_GLASS / _KELVINS)),
        edge_warms=single(opened.edge_warms / _KELVINS),
        by_cell_w=single(pairs.reshape(-1, _WARMTHS, _KELVINS).mean(axis=2).ravel()),
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
        return self.ac_w.take(cells_of(at), mode="wrap")  # no power is beyond the table: wrapping asks least


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
