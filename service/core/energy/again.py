"""What is the d.c. side of a set of which only some inputs are changed?"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from service.core.energy.chain import ArrayHours
from service.core.energy.lights import Lights
from service.core.energy.year import direct_current
from service.core.errors import ContradictionError
from service.core.model.facts import Array, Input, Setup
from service.core.model.hours import SkyYear

MOST_KEPT = 16  # inputs beside those of the set itself, some 0.3 MB each


@dataclass(frozen=True, slots=True)
class _Solved:
    """An input that was computed: what it bears, what is on it, and its hours in that order."""

    limits: Input
    arrays: tuple[Array, ...]
    hours: tuple[ArrayHours, ...]


@dataclass(frozen=True, slots=True, eq=False)
class KnownInputs:
    """The inputs of a set in a year, and of changed ones that were asked about since.

    A part of a question, not of the service. ``setup``: the set as it is; ``hours``: its ``direct_current``.
    """

    setup: Setup
    sky: SkyYear
    hours: tuple[ArrayHours, ...]
    lights: Lights = field(default_factory=Lights)
    _since: list[_Solved] = field(default_factory=list, init=False)

    def of(self, limits: Input, arrays: Sequence[Array]) -> tuple[ArrayHours, ...]:
        """The hours of an input that held the same, whatever its number and names; none where there was none."""
        for one in (*self._own(), *self._since):
            if one.limits == limits and _alike(one.arrays, arrays):
                return one.hours
        return ()

    def keep(self, setup: Setup, hours: tuple[ArrayHours, ...]) -> None:
        """Remember the inputs of a set in this year, the last ``MOST_KEPT`` of them."""
        self._since.extend(_inputs_of(setup, hours))
        del self._since[:-MOST_KEPT]

    def _own(self) -> Iterator[_Solved]:
        return _inputs_of(self.setup, self.hours)


def direct_current_again(setup: Setup, known: KnownInputs, *, account: bool = True) -> tuple[ArrayHours, ...]:
    """``direct_current(setup, sky)``; inputs that hold what a known one holds are not computed again.

    Args:
        setup: the changed set, on the same site and with the same rate of ageing.
        known: the set as it was, its year and light, and what of changed sets was computed since; added to. Light that
            was measured in the planes goes by the arrays' order: then all is computed.
        account: as of ``direct_current``; what is known already keeps its own.

    Raises:
        ContradictionError: an array on an input that the inverter lacks, or a panel whose datasheet makes no curve.
    """
    sky, lights = known.sky, known.lights
    if sky.plane_w_per_m2 is not None or _apart(setup) != _apart(known.setup):
        return direct_current(setup, sky, lights, account=account)
    found: dict[int, ArrayHours] = {}
    for limits, places in _by_input(setup):
        hours = known.of(limits, [setup.arrays[at] for at in places])
        found.update(zip(places, hours, strict=False))
    fresh = [at for at in range(len(setup.arrays)) if at not in found]
    if fresh:
        changed = replace(setup, arrays=tuple(setup.arrays[at] for at in fresh))
        try:
            hours = direct_current(changed, sky, lights, account=account)
        except ContradictionError:
            return direct_current(setup, sky, lights, account=account)  # says it of the array's place in the whole set
        known.keep(changed, hours)
        found.update(zip(fresh, hours, strict=True))
    return tuple(found[at] for at in range(len(setup.arrays)))


def _apart(setup: Setup) -> tuple[float, float]:
    """What all inputs hang on."""
    return setup.site.ground_reflectance_share, setup.money.ageing_share_per_year


def _by_input(setup: Setup) -> Iterator[tuple[Input, list[int]]]:
    """Each input in use that the inverter has: its limits and the places of its arrays."""
    for number, limits in enumerate(setup.inverter.inputs, start=1):
        places = [at for at, array in enumerate(setup.arrays) if array.input == number]
        if places:
            yield limits, places


def _inputs_of(setup: Setup, hours: Sequence[ArrayHours]) -> Iterator[_Solved]:
    for limits, places in _by_input(setup):
        yield _Solved(limits, tuple(setup.arrays[at] for at in places), tuple(hours[at] for at in places))


def _alike(arrays: Sequence[Array], others: Sequence[Array]) -> bool:
    """Are they the same but for names and inputs, and a single panel's way of being joined?"""
    if len(arrays) != len(others):
        return False
    joins_nothing = len(arrays) == 1 and arrays[0].count == 1

    def same(one: Array, other: Array) -> bool:
        joined = other.joined if joins_nothing else one.joined
        return one.plane == other.plane and replace(one, name=other.name, input=other.input, joined=joined) == other

    return all(one is other or same(one, other) for one, other in zip(arrays, others, strict=True))
