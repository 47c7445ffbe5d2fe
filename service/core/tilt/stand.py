"""What would the set give, hour by hour, were its arrays in these planes or in those? Over the kernel's tables."""

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from service.core.energy import remaining_share
from service.core.energy.kernel import (
    PLANES_AT_ONCE,
    InputTable,
    Light,
    NearestArray,
    NearestOutput,
    OpenPlanes,
    OutputTable,
    PlaceRecord,
    around_of,
    dc_w,
    input_table,
    light_among,
    nearest_array,
    nearest_output,
    open_planes,
    open_planes_like,
    output_table,
    place_record,
)
from service.core.errors import ContradictionError
from service.core.model.facts import Array, Input, Setup
from service.core.model.hours import Floats, Ints, SkyYear
from service.core.model.place import Plane
from service.core.sky import house_steepness, stands_behind, stands_under_or_beside
from service.core.tilt.wish import stands_before_a_facade

Singles = NDArray[np.float32]
Nearest = tuple[NearestArray | None, ...]
_DAYS_PER_YEAR = 365.0
_NEUTRAL = Plane(tilt_deg=0.0, azimuth_deg=0.0)
# Beam and sky of the hours left out, a tenth of all; at three places they bring a millionth of the year at most,
# upright planes too.
_DUSK_W_PER_M2 = 5.0
_LOOKED_AT = tuple(Plane(tilt_deg=float(tilt), azimuth_deg=0.0) for tilt in range(0, 91, 15))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Kind:
    """Arrays that differ in name, input and plane alone: what one would draw in a plane, any of them would.

    ``opened`` is what of its light hangs on no plane; None where a rear counts behind something that stands around it.
    ``nearest`` reads it at nearest cells, where they are enough.
    """

    array: Array
    table: InputTable
    opened: OpenPlanes | None
    nearest: NearestArray | None

    @property
    def around(self) -> bool:
        """Does anything stand around it?"""
        return _surrounded(self.array)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stand:
    """A set at its place, ready to be asked about planes.

    Attributes:
        sky, record: the place's hours, n of them with light.
        kinds, kind_of: the arrays' kinds, and which one each array is of.
        output, after: of the inverter, and in the place's hours after downtime.
        up_share: part of the year in which the set runs.
        ground_reflectance_share: of the site.
        day_starts, days: where among the hours with light each day begins, and which day of the year it is, from 0.
        hours: (n,) how many hours of the year each of them stands for.
        at_once: so many planes at a time.

    Arrays that share an input are taken as if each had its part of the input's limits to itself: good enough to choose
    a plane by; what is told of the chosen planes comes from the plain chain.
    """

    sky: SkyYear
    record: PlaceRecord
    kinds: tuple[Kind, ...]
    kind_of: tuple[int, ...]
    output: OutputTable
    after: NearestOutput
    up_share: float
    ground_reflectance_share: float
    day_starts: Ints
    days: Ints
    hours: Singles
    at_once: int = PLANES_AT_ONCE

    @property
    def panels_most_w(self) -> float:
        """The most that all arrays may draw together, d.c."""
        return float(sum(self.kinds[kind].table.most_w for kind in self.kind_of))

    @property
    def has_edges(self) -> bool:
        """Do shadows fall on an array that end elsewhere on each plane, or light on a rear behind obstacles?

        Of such planes many have to be looked at, or each costs much.
        """
        return self.has_bands or self.uneven or any(kind.opened is None for kind in self.kinds)

    @property
    def has_bands(self) -> bool:
        """Does a rail or a row before an array turn with it, so that its azimuth matters where it lies flat?"""
        return any(stands_behind(kind.array) for kind in self.kinds)

    @property
    def facades_look_deg(self) -> tuple[float, ...]:
        """The ways in which facades look, where a slab or a wall casts edges of shadow by which turns are told apart.

        A house alone casts none, so that a map before it is as smooth as in the open.
        """
        if not self._beside_edges:
            return ()
        looks = {one.array.facade_azimuth_deg for one in self.kinds if stands_before_a_facade(one.array)}
        return tuple(sorted(look for look in looks if look is not None))

    @property
    def uneven(self) -> bool:
        """Has the map edges elsewhere than at the facades' azimuths: beside walls, or with arrays before none, too?"""
        before = {stands_before_a_facade(one.array) for one in self.kinds}
        return self._beside_edges and (len(before) > 1 or any(one.array.walls for one in self.kinds))

    @property
    def _beside_edges(self) -> bool:
        """Does a slab hang or a wall stand over or beside an array?"""
        return any(stands_under_or_beside(one.array) for one in self.kinds)

    @property
    def sun_left_share(self) -> float:
        """Of the year's sun on a plane that follows it, what skyline, house, slab, walls leave the array with least."""
        from_sun = self.record.from_sun_w_per_m2
        arounds = (kind.opened.around for kind in self.kinds if kind.opened is not None)
        left = [float(from_sun @ around.open_share) for around in arounds if around is not None]
        return min(left) / max(float(from_sun.sum()), 1.0) if left else 1.0

    def dc_w(self, kind: int, planes: Sequence[Plane], nearest: Nearest = ()) -> Singles:
        """D.c. power of one array of a kind in each of these planes, (m, n); roughly by its ``nearest``."""
        blocks = list(self.dc_blocks(kind, planes, nearest))
        return blocks[0] if len(blocks) == 1 else np.concatenate(blocks)

    def dc_blocks(self, kind: int, planes: Sequence[Plane], nearest: Nearest = ()) -> Iterator[Singles]:
        """The same, a few planes after the other: they stay in the processor's cache for what is made of them."""
        one = self.kinds[kind]
        cells = nearest[kind] if nearest else None
        opened = one.opened
        if opened is not None:
            opened = open_planes_like(opened, one.array, self.record, planes, self.ground_reflectance_share)
        for first in range(0, len(planes), self.at_once):
            block = slice(first, first + self.at_once)
            if opened is None or cells is None:
                yield dc_w(self._light(one, opened, planes, block), one.table)
            else:
                yield cells.dc_of(_part(opened, block))

    def _light(self, one: Kind, opened: OpenPlanes | None, planes: Sequence[Plane], block: slice) -> Light:
        if opened is None:
            return light_among(one.array, self.sky, self.record, planes[block], self.ground_reflectance_share)
        return _part(opened, block).light()

    def nearest(self) -> Nearest:
        """Tables of each kind for a map or a ranking: 0.05 % instead of 0.02 % of the plain chain, at half the cost."""
        return tuple(kind.nearest for kind in self.kinds)

    def ac_w(self, dc: Singles) -> Singles:
        """A.c. power of the whole set by the d.c. power of all inputs, (m, n), after downtime."""
        return self.after.of(dc)

    def by_day(self, hourly: Singles) -> Floats:
        """(m, 365) sums in kWh of hourly powers (m, n)."""
        daily = np.zeros((hourly.shape[0], int(_DAYS_PER_YEAR)))
        if self.days.size:
            daily[:, self.days] = np.add.reduceat(hourly, self.day_starts, axis=1)
        return daily / 1000.0

    def whole_year_w(self, hourly: Singles) -> Floats:
        """(8760,) of one row of hours with light."""
        year = np.zeros(self.sky.ghi_w_per_m2.size)
        year[self.record.daylight.rows] = hourly
        return year


def _part(opened: OpenPlanes, block: slice) -> OpenPlanes:
    """Some of the planes."""
    exactly, first = opened.exactly, block.start
    if not first and len(opened.facing) <= block.stop:
        return opened
    return replace(
        opened,
        facing=opened.facing[block],
        works=opened.works[block],
        warms=opened.warms[block],
        down=None if opened.down is None else opened.down[block],
        exactly=lambda plane, hours: exactly(plane + first, hours),
    )


def before_its_facade(setup: Setup) -> Setup:
    """The set with its slabs, walls and houses kept where they stand: square to the planes as these are."""
    arrays = tuple(
        replace(array, facade_azimuth_deg=array.plane.azimuth_deg)
        if stands_before_a_facade(array) and array.facade_azimuth_deg is None
        else array
        for array in setup.arrays
    )
    return replace(setup, arrays=arrays)


def stand_key(setup: Setup) -> Hashable:
    """All that a stand hangs on beside the place: setups of one key have the same one."""
    return (
        tuple(replace(array, plane=_NEUTRAL) for array in before_its_facade(setup).arrays),
        setup.inverter,
        setup.downtime_days_per_year,
        setup.site.ground_reflectance_share,
        setup.money.ageing_share_per_year,
    )


def stand_of(setup: Setup, sky: SkyYear) -> Stand:
    """The set at its place. The planes that its arrays have tell how slabs and walls stand, and nothing else.

    Raises:
        ContradictionError: an array on an input that the inverter lacks, a panel whose datasheet makes no curve, or
            light that was measured in the planes as they are, which tells nothing of others.
    """
    if sky.plane_w_per_m2 is not None:
        raise ContradictionError(
            "/weather/series/plane_w_per_m2",
            "was measured in the planes as they stand and tells nothing of others",
            accepted="ghi_w_per_m2, or no weather",
            example=None,
        )
    setup = before_its_facade(setup)
    keys: dict[tuple[Array, Input], int] = {}
    kind_of = []
    for at, array in enumerate(setup.arrays):
        if not 1 <= array.input <= len(setup.inverter.inputs):
            pointer = f"/arrays/{at}/input"
            raise ContradictionError(
                pointer, "the inverter has no such input", given=array.input,
                accepted=f"1 to {len(setup.inverter.inputs)}", example=1,
            )  # fmt: skip
        key = (replace(array, name="", input=1, plane=_NEUTRAL), _limits(setup, array))
        kind_of.append(keys.setdefault(key, len(keys)))
    ageing = setup.money.ageing_share_per_year
    first_of = [kind_of.index(kind) for kind in range(len(keys))]
    record = place_record(sky, _DUSK_W_PER_M2)
    reflectance = setup.site.ground_reflectance_share
    kinds = tuple(
        kind_at(array, _table(array, limits, ageing, at), sky, record, reflectance)
        for (array, limits), at in zip(keys, first_of, strict=True)
    )
    days = (sky.calendar.day_of_year[record.daylight.rows] - 1).astype(np.int64)
    day_starts = np.flatnonzero(np.diff(days, prepend=-1))
    output = output_table(setup.inverter, sum(kinds[kind].table.most_w for kind in kind_of))
    up_share = 1 - min(setup.downtime_days_per_year / _DAYS_PER_YEAR, 1.0)
    return Stand(
        sky=sky,
        record=record,
        kinds=kinds,
        kind_of=tuple(kind_of),
        output=output,
        after=nearest_output(output, record, up_share),
        up_share=up_share,
        ground_reflectance_share=setup.site.ground_reflectance_share,
        day_starts=day_starts,
        days=days[day_starts],
        hours=np.ones(days.size, np.float32),
    )


def kind_at(array: Array, table: InputTable, sky: SkyYear, record: PlaceRecord, reflectance: float) -> Kind:
    """An array on its input at a place."""
    around = around_of(array, sky, record) if _surrounded(array) else None
    if around is None and _surrounded(array):
        return Kind(array=array, table=table, opened=None, nearest=None)
    opened = open_planes(array, record, _LOOKED_AT, reflectance, around)
    nearest = nearest_array(array, record, opened, table, reflectance)
    return Kind(array=array, table=table, opened=opened, nearest=nearest)


def _table(array: Array, limits: Input, ageing_share_per_year: float, at: int) -> InputTable:
    try:
        return input_table(array, limits, remaining_share(array, ageing_share_per_year))
    except ContradictionError as error:
        pointer = f"/arrays/{at}/panel{error.pointer}"
        raise ContradictionError(
            pointer, error.problem, given=error.given, accepted=error.accepted, example=error.example
        ) from error


def _surrounded(array: Array) -> bool:
    return array.surrounded or house_steepness(array) is not None


def _limits(setup: Setup, array: Array) -> Input:
    """The input's limits, or an equal part where arrays share it: of the current, in one string of the volts."""
    limits = setup.inverter.inputs[array.input - 1]
    sharing = sum(1 for other in setup.arrays if other.input == array.input)
    if sharing == 1:
        return limits
    power = None if limits.max_input_power_w is None else limits.max_input_power_w / sharing
    if array.joined == "one_string":
        return replace(
            limits,
            max_input_power_w=power,
            start_voltage_v=limits.start_voltage_v / sharing,
            tracking_min_v=limits.tracking_min_v / sharing,
            tracking_max_v=limits.tracking_max_v / sharing,
        )
    return replace(limits, max_input_power_w=power, max_current_a=limits.max_current_a / sharing)
