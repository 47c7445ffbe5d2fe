"""Which single figure of a refused panel would, put right, let the rest stand? For the example beside the refusal."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import log
from typing import Any

from service.core.completion.panel_rules import IMP, ISC, VMP, VOC
from service.core.errors import ContradictionError
from service.core.model.bounds import BOUNDS
from service.core.model.facts import Panel
from service.core.panel import check_power, check_product

# Values in steps that grow by 5 % each: near ones finely, and up to a factor of some 170 away.
_FACTORS = tuple(1.05 ** (step * (step + 1) / 2) for step in range(15))
_POWER = "rated_power_w"

Completing = Callable[[Mapping[str, Any]], Panel]


def mended(
    error: ContradictionError, given: Mapping[str, Any], pointer: str, complete: Completing
) -> ContradictionError:
    """The refusal with an example that resolves it, at the figure where one can.

    Where no single figure does, because several are wrong, the one farthest from a usual panel of this power is named,
    with that panel's value; who follows the examples ends at a panel that can be.

    Args:
        error: the refusal of the panel that ``given`` describes.
        given: the panel as sent.
        pointer: of the panel, RFC 6901.
        complete: completes a panel as sent; raises ContradictionError where it cannot.
    """
    at = error.pointer.removeprefix(f"{pointer}/")
    if error.example is not None and _left(at, error.example, given, complete) is None:
        return error
    named = [name for name in (IMP, VMP, ISC, VOC) if given.get(name) is not None]
    for name in dict.fromkeys([*([at] if at in BOUNDS else []), *named, _POWER]):
        for value in _around(name, given.get(name)):
            if _left(name, value, given, complete) is None:
                return _with_example(error, at, f"{pointer}/{name}", given.get(name), value)
    if at not in {IMP, VMP, ISC, VOC, _POWER}:
        return error
    return _by_usual(error, given, pointer, named or [VOC if at == _POWER else at])


def _by_usual(
    error: ContradictionError, given: Mapping[str, Any], pointer: str, named: Sequence[str]
) -> ContradictionError:
    usual = _usual(given.get(_POWER) or 410.0)
    farthest = max(named, key=lambda name: abs(log((given.get(name) or usual[name]) / usual[name])))
    return ContradictionError(
        f"{pointer}/{farthest}", error.problem, given=given.get(farthest),
        accepted=f"several figures disagree; a usual panel of this power has {usual[farthest]:g} "
        f"{BOUNDS[farthest].unit}", example=usual[farthest],
    )  # fmt: skip


def _usual(power_w: float) -> dict[str, float]:
    """The four points of a usual panel: 33 V at its rated power, 17 V up to 100 W (common practice, no source)."""
    vmp = 33.0 if power_w > 100 else 17.0
    points = {VMP: vmp, VOC: vmp / 0.82, IMP: power_w / vmp, ISC: power_w / vmp / 0.94}
    return {name: round(value, 2) for name, value in points.items()}


def _with_example(error: ContradictionError, at: str, pointer: str, given: Any, value: float) -> ContradictionError:
    name = pointer.rpartition("/")[2]
    accepted = error.accepted if name == at else f"about {value:g} {BOUNDS[name].unit}: {error.accepted}"
    return ContradictionError(pointer, error.problem, given=given, accepted=accepted, example=value)


def _around(name: str, given: float | None) -> Iterator[float]:
    """Values of a field within its bounds, nearest to the given one (or the middle) first, the bounds last."""
    bounds = BOUNDS[name]
    middle = given or (max(bounds.low, bounds.high / 1000) * bounds.high) ** 0.5
    for factor in _FACTORS:
        for value in (middle * factor, middle / factor):
            rounded = round(value, 2)
            if bounds.low <= rounded <= bounds.high:
                yield rounded
    yield from (bounds.low, bounds.high)


def _left(name: str, value: Any, given: Mapping[str, Any], complete: Completing) -> ContradictionError | None:
    """What would still be refused with ``value`` for ``name``; None where nothing is."""
    try:
        panel = complete({**given, name: value})
        check_power(panel.rated_power_w, panel.open_circuit_voltage_v, panel.short_circuit_current_a)
        check_product(panel)
    except ContradictionError as error:
        return error
    return None
