"""What is the d.c. side of a set of which only some inputs are changed?"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from service.core.energy.chain import ArrayHours
from service.core.energy.lights import Lights
from service.core.energy.year import direct_current
from service.core.errors import ContradictionError
from service.core.model.facts import Array, Input, Setup
from service.core.model.hours import SkyYear


def direct_current_again(
    setup: Setup,
    sky: SkyYear,
    known: Setup,
    hours: tuple[ArrayHours, ...],
    lights: Lights | None = None,
    *,
    account: bool = True,
) -> tuple[ArrayHours, ...]:
    """``direct_current(setup, sky)``; inputs that hold what one held in ``known`` are not computed again.

    Args:
        setup: the changed set, on the same site and with the same rate of ageing.
        sky: the place's hours. Light that was measured in the planes goes by the arrays' order: then all is computed.
        known: the set as it was.
        hours: its ``direct_current``.
        lights: as there.
        account: as there; what is taken from ``hours`` keeps its own.

    Raises:
        ContradictionError: an array on an input that the inverter lacks, or a panel whose datasheet makes no curve.
    """
    if sky.plane_w_per_m2 is not None or _apart(setup) != _apart(known):
        return direct_current(setup, sky, lights, account=account)
    before = [(limits, places, [known.arrays[at] for at in places]) for limits, places in _by_input(known)]
    found: dict[int, ArrayHours] = {}
    for limits, places in _by_input(setup):
        held = [setup.arrays[at] for at in places]
        was = next((there for of, there, other in before if of == limits and _alike(held, other)), ())
        found.update({at: hours[there] for at, there in zip(places, was, strict=False)})
    fresh = [at for at in range(len(setup.arrays)) if at not in found]
    if len(fresh) == len(setup.arrays):
        return direct_current(setup, sky, lights, account=account)
    if fresh:
        changed = replace(setup, arrays=tuple(setup.arrays[at] for at in fresh))
        try:
            found.update(zip(fresh, direct_current(changed, sky, lights, account=account), strict=True))
        except ContradictionError:
            return direct_current(setup, sky, lights, account=account)  # says it of the array's place in the whole set
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


def _alike(arrays: Sequence[Array], others: Sequence[Array]) -> bool:
    """Are they the same but for names and inputs?"""
    pairs = zip(arrays, others, strict=False)
    return len(arrays) == len(others) and all(
        one is other or replace(one, name=other.name, input=other.input) == other for one, other in pairs
    )
