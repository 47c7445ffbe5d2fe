"""Every question about panels and inverter inputs, asked of a set as wired."""

from functools import partial

from service.core.compatibility.current import operating_current, reverse_current, short_circuit_current
from service.core.compatibility.pairing import connectors, datasheet_sanity, input_count, panel_power, unlike_panels
from service.core.compatibility.voltage import cold_voltage, hot_voltage, start_voltage, system_voltage
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.finding import Finding


def panel_side(wiring: Wiring) -> tuple[Finding, ...]:
    """The findings of the panel side: per array its volts, sheet and connectors, per input its amperes and watts.

    Raises:
        ContradictionError: an array stands on an input that the inverter does not have.
    """
    found: list[Finding | None] = []
    for index, _, here in wiring.inputs():
        for strings in here:
            found += [check(wiring, index, strings) for check in _PER_ARRAY]
            found += wiring.once(("alone", strings.at), partial(_alone, wiring, index, strings))
        found += [check(wiring, index, here) for check in _PER_INPUT]
        found += reverse_current(wiring, index, here)
    found.append(input_count(wiring))
    return tuple(finding for finding in found if finding is not None)


def _alone(wiring: Wiring, index: int, strings: Strings) -> list[Finding | None]:
    """What no inverter has a part in."""
    return [check(wiring, index, strings) for check in (system_voltage, datasheet_sanity, connectors)]


_PER_ARRAY = (cold_voltage, hot_voltage, start_voltage)
_PER_INPUT = (operating_current, short_circuit_current, panel_power, unlike_panels)
