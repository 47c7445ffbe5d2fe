"""What would a set yield in this plane, or in that one, or in each of six thousand?

The same physics as the plain chain, read from tables: what passes the glass by the cosine of incidence, the panel on
its input by irradiance and cell temperature, the inverter by d.c. power. All that is linear in the place's hours is
one matrix product. ``tests/properties/test_kernel_promises.py`` holds the kernel to the plain chain.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.core.energy.kernel.around import Around
from service.core.energy.kernel.input_table import (
    COLDEST_C,
    IRRADIANCES,
    STEP_C,
    STEP_W_PER_M2,
    TEMPERATURES,
    InputTable,
)
from service.core.energy.kernel.lit import Exactly, Light
from service.core.energy.kernel.place import PlaceRecord, Singles, cells_of, single
from service.core.energy.kernel.running import running
from service.core.energy.kernel.snow import Snow
from service.core.model.facts import Array
from service.core.model.hours import Floats, Ints, SkyYear
from service.core.model.place import Plane
from service.core.panel import HEAT_LOSS, cell_temperature_c
from service.core.sky import (
    Surroundings,
    counts_rear,
    ground_before_house_share,
    ground_modifier,
    light_of_planes,
    modifier,
    open_surroundings,
    rear_of_planes,
    rear_weights,
    sky_modifier,
    sky_share,
    stays_share,
    surroundings_of,
)

# So many planes at a time stay within a processor's near cache; more at a time were slower.
PLANES_AT_ONCE = 8
# What works behind the glass of light from the sun, by the cosine of incidence, -1 to 1, in bins; and on a rear.
BINS = 12288
_COSINES = (np.arange(2 * BINS + 2) + 0.5) / BINS - 1.0
FRONT = single(np.clip(_COSINES, 0.0, 1.0) * modifier(_COSINES))
REAR = single(np.clip(-_COSINES, 0.0, 1.0) * modifier(-_COSINES))
RIM = 0.02  # so far inside the table's end that single precision doesn't round the cell's number up to the next


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OpenPlanes:
    """m planes of an array at a place: all that is linear in the hours, as weights and basis.

    Attributes:
        facing, sun: (m, 4) and (4, n): their product is the cosine of incidence, in bins from -1.
        works, even: (m, 2) and (2, n): sky and ground, in nodes of the table; those of a rear that counts with them.
        warms, even_warms: (m, 3) and (3, n): sky, ground and air less ``edge_warms``, in steps of the table.
        beam_works: (n,) light from the sun at square incidence, in nodes.
        beam_behind: (n,) that on a rear that counts and that it reaches, in nodes; None: it does not.
        beam_warms, edge_warms: (n,) what light from the sun warms by each bin, and by the bins up to the plane's edge,
            in steps: with the sun behind there is the latter, which the air's row takes off again.
        around: what stands around it, where something does; the sun's light and the sky's weights have it in already,
            but for its hours apart.
        down: (m, 2) how the planes run down and out under a slab, beside a wall; None: there is neither.
        snow: what it takes of the light; None: nothing, or all planes are upright.
        beyond_table: whether some plane could get more light, or cells be warmer or colder, than the tables tell.
    """

    facing: Singles
    sun: Singles
    works: Singles
    even: Singles
    warms: Singles
    even_warms: Singles
    beam_works: Singles
    beam_behind: Singles | None
    beam_warms: Singles
    edge_warms: Singles
    around: Around | None
    down: Singles | None
    snow: Snow | None
    first_of_day: Ints
    beyond_table: bool
    exactly: Exactly

    def light(self) -> Light:
        """Light and heat of these planes."""
        turned = self.facing @ self.sun
        bins = cells_of(turned)
        nodes = FRONT.take(bins, mode="wrap")  # no bin is beyond the table, and wrapping asks least
        nodes *= self.beam_works
        turned *= self.beam_warms
        steps = np.maximum(turned, self.edge_warms, out=turned)
        self.darken(nodes, steps)
        nodes += self.works @ self.even
        if self.beam_behind is not None:
            nodes += REAR.take(bins, mode="wrap") * self.beam_behind
        steps += self.warms @ self.even_warms
        if self.snow is not None:
            nodes *= self.snow.leaves(self.up)
        if self.beyond_table:
            nodes, steps = _inside(nodes, steps)
        return Light(nodes=nodes, steps=steps, first_of_day=self.first_of_day, exactly=self.exactly)

    @property
    def up(self) -> Singles:
        """The cosines of the planes' tilts, (m,)."""
        return self.facing[:, 2] * np.float32(1.0 / BINS)

    def darken(self, nodes: Singles, steps: Singles, step: float = 1.0) -> None:
        """Take off in the hours apart what shadows take of the sun's part of light and heat, of steps this wide."""
        apart = None if self.around is None else self.around.apart
        if apart is None:
            return
        hours, ways = apart.hours, apart.ways(self.down)
        beam, warm = nodes.take(hours, axis=1), steps.take(hours, axis=1)
        narrow = np.float32(1.0 / step)
        sun_warms: Singles = warm - self.edge_warms[hours] * narrow
        if (share := apart.share_of_beam(ways)) is not None:
            nodes[:, hours] = beam - share * beam
            steps[:, hours] = warm - share * sun_warms
            return
        works, warms = self.works @ self.even[:, hours], (self.warms[:, :2] * narrow) @ self.even_warms[:2, hours]
        nodes[:, hours] = beam - apart.taken(beam + works, beam, ways)
        steps[:, hours] = warm - apart.taken(sun_warms + warms, sun_warms, ways)


def open_planes(
    array: Array,
    record: PlaceRecord,
    planes: Sequence[Plane],
    ground_reflectance_share: float,
    around: Around | None = None,
) -> OpenPlanes:
    """An array at a place, were it in each of these planes; its own plane is not read.

    With nothing around it, or with what ``around_of`` has of it.
    """
    through = 1.0 if array.cover is None else array.cover.light_through_share
    clean = (1.0 - array.dirt_share) / STEP_W_PER_M2
    warms = through * warming_steps(record, array.mount)
    weights = light_weights(array, planes, ground_reflectance_share, around, record)
    works, behind = weights.works, weights.behind
    from_sun = record.from_sun_w_per_m2 if around is None else single(record.from_sun_w_per_m2 * around.open_share)
    ground = record.ghi_w_per_m2
    if around is not None and around.ground_w_per_m2 is not None:
        ground = single(around.ground_w_per_m2)
    even = np.stack((record.even_sky_w_per_m2, ground))
    air = air_steps(record)
    # In no plane can there be more than this.
    bare = weights if around is None else light_weights(array, planes, ground_reflectance_share)
    lit = record.from_sun_w_per_m2 * max(works, behind) + bare.even_works.max(axis=0) @ even
    warm = air + (record.from_sun_w_per_m2 + even.sum(axis=0)) * warms
    beyond = lit.max(initial=0.0) * clean >= IRRADIANCES or warm.max(initial=0.0) >= TEMPERATURES
    edge_warms = single(from_sun * warms)
    return OpenPlanes(
        facing=_facing(planes),
        sun=record.sun,
        works=single(weights.even_works * clean),
        even=single(even),
        warms=weights.even_warms,
        even_warms=single(np.stack((*(even * warms), air - edge_warms))),
        beam_works=single(from_sun * (works * clean)),
        beam_behind=single(record.from_sun_w_per_m2 * (behind * clean)) if behind > 0.0 else None,
        beam_warms=single(edge_warms / BINS),
        edge_warms=edge_warms,
        around=around,
        down=None if around is None else around.down(planes),
        snow=record.snow if stays_share(_tilts(planes)).max(initial=0.0) > 1e-9 else None,
        first_of_day=record.first_of_day,
        beyond_table=bool(beyond or air.min(initial=0.0) < 0.0),
        exactly=_exactly(
            array, record, planes, ground_reflectance_share, None if around is None else around.surroundings
        ),
    )


def open_planes_like(
    opened: OpenPlanes, array: Array, record: PlaceRecord, planes: Sequence[Plane], ground_reflectance_share: float
) -> OpenPlanes:
    """The same array at the same place in other planes: what does not hang on them is taken from ``opened``.

    Its planes must hold a flat and an upright one, so that what it says of the table's ends holds for all.
    """
    around = opened.around
    weights = light_weights(array, planes, ground_reflectance_share, around, record)
    return replace(
        opened,
        facing=_facing(planes),
        works=single(weights.even_works * ((1.0 - array.dirt_share) / STEP_W_PER_M2)),
        warms=weights.even_warms,
        down=None if around is None else around.down(planes),
        exactly=_exactly(
            array, record, planes, ground_reflectance_share, None if around is None else around.surroundings
        ),
    )


def _facing(planes: Sequence[Plane]) -> Singles:
    """(m, 4) outwards from each plane, east, north, up, and up to the plane itself: in bins of the cosine."""
    azimuth = np.radians([plane.azimuth_deg for plane in planes])
    tilt = np.radians([plane.tilt_deg for plane in planes])
    level = np.sin(tilt) * BINS
    facing = np.empty((tilt.size, 4), np.float32)  # as ``direction``, of a few planes at a fifth of its cost
    facing[:, 0], facing[:, 1], facing[:, 2] = level * np.sin(azimuth), level * np.cos(azimuth), np.cos(tilt) * BINS
    facing[:, 3] = BINS
    return facing


def _tilts(planes: Sequence[Plane]) -> Floats:
    return np.array([plane.tilt_deg for plane in planes])


@dataclass(frozen=True, slots=True, eq=False)
class Weights:
    """What sky and ground do in each of m planes, and what the beam does.

    Attributes:
        even_warms: (m, 3) of an even sky and of the ground what falls on each plane, and ones for the air.
        even_works: (m, 2) what of both works behind glass, on a rear that counts, too.
        works, behind: what of the beam's light at square incidence works on the front, and on a rear.
    """

    even_warms: Singles
    even_works: Floats
    works: float
    behind: float


def light_weights(
    array: Array,
    planes: Sequence[Plane],
    ground_reflectance_share: float,
    around: Around | None = None,
    record: PlaceRecord | None = None,
) -> Weights:
    """Those of an array, were it in each of these planes; of its place, where its house may dim the ground."""
    tilt = _tilts(planes)
    through = 1.0 if array.cover is None else array.cover.light_through_share
    warms, even = np.ones((tilt.size, 3), np.float32), np.empty((tilt.size, 2))
    bare = sky_share(tilt)
    sky = bare if around is None else around.sky_share(planes)
    ground = 1.0 - bare
    if record is not None:
        ground = ground * _before_house(array, planes, record)
    warms[:, 0], warms[:, 1] = sky, ground_reflectance_share * ground
    rear = rear_weights(array, tilt, ground_reflectance_share) if counts_rear(array) else None
    works = through if rear is None else through * (1.0 + rear.of_front_share)
    even[:, 0] = sky * sky_modifier(tilt) * works
    even[:, 1] = ground * ground_modifier(tilt) * (ground_reflectance_share * works)
    if rear is None:
        return Weights(warms, even, works, 0.0)
    even += np.stack((rear.even_sky_share, rear.ground_share), axis=1)
    return Weights(warms, even, works, rear.from_sun_share)


def _before_house(array: Array, planes: Sequence[Plane], record: PlaceRecord) -> Floats:
    azimuth = np.array([plane.azimuth_deg for plane in planes])
    return ground_before_house_share(array, _tilts(planes), azimuth, record.daylight)


def light_among(
    array: Array, sky: SkyYear, record: PlaceRecord, planes: Sequence[Plane], ground_reflectance_share: float
) -> Light:
    """Light and heat of an array that has something around it, were it in each of these planes."""
    surroundings = surroundings_of(array, sky, record.daylight)
    on_cells, works = light_of_planes(
        array, planes, record.daylight.in_single(), surroundings.in_single(), ground_reflectance_share
    )
    if counts_rear(array):
        works = works + rear_of_planes(array, planes, record.daylight, surroundings, ground_reflectance_share, works)
    if record.snow is not None:
        works = works * (1.0 - np.multiply.outer(stays_share(_tilts(planes)), record.snow.share))
    nodes = single(works * ((1.0 - array.dirt_share) / STEP_W_PER_M2))
    steps = single(on_cells * warming_steps(record, array.mount) + air_steps(record))
    nodes, steps = _inside(nodes, steps)
    exactly = _exactly(array, record, planes, ground_reflectance_share, surroundings)
    return Light(nodes=nodes, steps=steps, first_of_day=record.first_of_day, exactly=exactly)


def _exactly(
    array: Array,
    record: PlaceRecord,
    planes: Sequence[Plane],
    ground_reflectance_share: float,
    around: Surroundings | None,
) -> Exactly:
    def of(plane: int, hours: Ints) -> tuple[Floats, Floats]:
        daylight, one = record.daylight.at(hours), planes[plane : plane + 1]
        surroundings = open_surroundings(hours.size) if around is None else around.at(hours)
        on_cells, works = light_of_planes(array, one, daylight, surroundings, ground_reflectance_share)
        if counts_rear(array):
            works = works + rear_of_planes(array, one, daylight, surroundings, ground_reflectance_share, works)
        cells = cell_temperature_c(on_cells[0], record.air_c[hours], record.wind_m_per_s[hours], array.mount)
        clean = works[0] * (1.0 - array.dirt_share)
        if record.snow is not None:
            clean = clean * (1.0 - record.snow.share[hours] * float(stays_share(one[0].tilt_deg)))
        return clean, cells

    return of


def dc_w(light: Light, table: InputTable) -> Singles:
    """D.c. power that an input draws from its panels, (m, n)."""
    if table.tight:
        warm = np.clip(light.steps - np.float32(0.5), np.float32(0.0), np.float32(TEMPERATURES - 1.001))
        cooler = np.floor(warm)
        power = _read(table, light.nodes, cooler)
        power += (_read(table, light.nodes, cooler + np.float32(1.0)) - power) * (warm - cooler)
    else:
        power = _read(table, light.nodes, light.steps)
    if table.jumps:
        power *= running(table, light, power > 0.0)
    return power


def together_w(powers: Sequence[Singles]) -> Singles:
    """Of several inputs' powers, (m, n) each, those of all together, (n,); the first one's rows are used up."""
    rows = [row for power in powers for row in power]
    total: Singles = rows[0]
    for row in rows[1:]:
        total += row
    return total


def _read(table: InputTable, nodes: Singles, steps: Singles) -> Singles:
    """What the cell of this light, at the temperature of the steps' whole part, makes of the light."""
    at = np.floor(nodes)
    at *= TEMPERATURES
    at += steps
    power = table.by_step_w.take(cells_of(at), mode="wrap")
    power *= nodes
    return power


def warming_steps(record: PlaceRecord, mount: str) -> Singles:
    """(n,) how many steps of the table each W/m2 on the cells warms them."""
    loss = HEAT_LOSS[mount]
    return single(1.0 / (STEP_C * (loss.still_w_per_m2_k + loss.wind_w_s_per_m3_k * record.wind_m_per_s)))


def air_steps(record: PlaceRecord) -> Singles:
    """(n,) air temperature in steps of the table, and a half."""
    return single((record.air_c - COLDEST_C) / STEP_C + 0.5)


def _inside(nodes: Singles, steps: Singles) -> tuple[Singles, Singles]:
    return (
        np.clip(nodes, np.float32(0.0), np.float32(IRRADIANCES - RIM)),
        np.clip(steps, np.float32(0.0), np.float32(TEMPERATURES - RIM)),
    )
