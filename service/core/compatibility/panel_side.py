"""Every question about panels and inverter inputs, asked of a set as wired."""

from collections.abc import Callable
from typing import TypeVar

from service.core.compatibility.current import operating_current, reverse_current, short_circuit_current
from service.core.compatibility.pairing import connectors, datasheet_sanity, input_count, panel_power, unlike_panels
from service.core.compatibility.voltage import cold_voltage, hot_voltage, start_voltage, system_voltage
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.finding import Finding

T = TypeVar("T")

# Each question with the limits of the input that it reads: the answer is the same beside every inverter with the same.
_PER_ARRAY: tuple[tuple[Callable[[Wiring, int, Strings], Finding | None], tuple[str, ...]], ...] = (
    (cold_voltage, ("max_input_voltage_v",)),
    (hot_voltage, ("tracking_min_v", "tracking_max_v")),
    (start_voltage, ("start_voltage_v",)),
)
# Of these no limit of an input is read.
_OF_THE_ARRAY: tuple[Callable[[Wiring, int, Strings], Finding | None], ...] = (
    system_voltage, datasheet_sanity, connectors,
)  # fmt: skip
_PER_INPUT: tuple[tuple[Callable[[Wiring, int, tuple[Strings, ...]], Finding | None], tuple[str, ...]], ...] = (
    (operating_current, ("max_current_a", "tracking_min_v", "tracking_max_v", "start_voltage_v", "max_input_power_w")),
    (short_circuit_current, ("max_short_circuit_current_a", "max_panel_short_circuit_current_a")),
    (panel_power, ("max_panel_power_w", "max_panel_power_kind")),
    (unlike_panels, ("tracking_min_v", "tracking_max_v", "max_current_a", "max_input_power_w", "start_voltage_v")),
)


def panel_side(wiring: Wiring) -> tuple[Finding, ...]:
    """The findings of the panel side: per array its volts, sheet and connectors, per input its amperes and watts.

    Raises:
        ContradictionError: an array stands on an input that the inverter does not have.
    """
    found: list[Finding | None] = []
    used = wiring.inputs()
    for index, _, here in used:
        for strings in here:
            found += [_asked(wiring, index, strings, check, names) for check, names in _PER_ARRAY]
            found += _asked(wiring, index, strings, _of_the_array, ())
        found += [_asked(wiring, index, here, check, names) for check, names in _PER_INPUT]
        found += _asked(wiring, index, here, reverse_current, ())
    found.append(input_count(wiring, used))
    return tuple(finding for finding in found if finding is not None)


def _of_the_array(wiring: Wiring, index: int, strings: Strings) -> list[Finding]:
    found = (check(wiring, index, strings) for check in _OF_THE_ARRAY)
    return [finding for finding in found if finding is not None]


A = TypeVar("A", Strings, tuple[Strings, ...])


def _asked(wiring: Wiring, index: int, about: A, check: Callable[[Wiring, int, A], T], names: tuple[str, ...]) -> T:
    """The answer of a question; kept by what it hangs on where other inverters stand beside this one."""
    if wiring.kept is None:
        return check(wiring, index, about)
    at = about.at if isinstance(about, Strings) else tuple(strings.at for strings in about)
    return wiring.once((check, at, index, wiring.limits_key(index, names)), lambda: check(wiring, index, about))
