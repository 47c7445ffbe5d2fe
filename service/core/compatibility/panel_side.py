"""Every question about panels and inverter inputs, asked of a set as wired."""

from collections.abc import Callable

from service.core.compatibility.cold import cold_volts
from service.core.compatibility.current import operating_current, reverse_current, short_circuit_current
from service.core.compatibility.pairing import connectors, datasheet_sanity, input_count, panel_power, unlike_panels
from service.core.compatibility.question import InputLimits, Question, settled, when_needed
from service.core.compatibility.voltage import cold_voltage, hot_voltage, start_voltage, system_voltage
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.finding import Finding

# What limits of an input bear on, and what hangs on the arrays alone.
_PER_ARRAY: tuple[Callable[[Wiring, Strings], Question], ...] = (
    cold_voltage, hot_voltage, start_voltage, connectors,
)  # fmt: skip
_OF_THE_ARRAY: tuple[Callable[[Wiring, int, Strings], Finding | None], ...] = (
    system_voltage, datasheet_sanity,
)  # fmt: skip
_PER_INPUT: tuple[Callable[[Wiring, tuple[Strings, ...]], Question], ...] = (
    operating_current, short_circuit_current, panel_power,
)  # fmt: skip


def panel_side(wiring: Wiring) -> tuple[Finding, ...]:
    """The findings of the panel side: per array its volts, sheet and connectors, per input its amperes and watts.

    Raises:
        ContradictionError: an array stands on an input that the inverter does not have.
    """
    used = wiring.inputs()
    found: list[Finding | None] = []
    for index, completed, here in used:
        limits = InputLimits(index, completed, wiring.assumptions, wiring.setup.inverter.connector_make)
        found += [question.finding(limits) for question in questions(wiring, index, here)]
        found += [unlike_panels(wiring, index, here), *reverse_current(wiring, index, here)]
    found.append(input_count(wiring, used))
    return tuple(finding for finding in found if finding is not None)


def questions(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> tuple[Question, ...]:
    """All that is asked of what hangs on one input, as far as it may be asked of many inputs alike.

    What strings do to each other (``unlike_panels``, ``reverse_current``) and how many there are for the inverter
    (``input_count``) is not among them: one array alone, of one string, is not asked or fits.
    """
    found: list[Question] = []
    for strings in here:
        found += [ask(wiring, strings) for ask in _PER_ARRAY]
        of_the_array = (ask(wiring, index, strings) for ask in _OF_THE_ARRAY)
        found += [settled(finding) for finding in of_the_array if finding is not None]
    return (*found, *(ask(wiring, here) for ask in _PER_INPUT))


def dangers(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> tuple[Callable[[], tuple[Question, ...]], ...]:
    """Of ``panel_side`` what can refuse an input, what mostly does first; each part is to be made up when reached."""
    cold = when_needed(lambda: tuple(cold_volts(wiring, strings) for strings in here))

    def insulation() -> tuple[Question, ...]:
        found = (system_voltage(wiring, index, strings, volts) for strings, volts in zip(here, cold(), strict=True))
        return tuple(settled(finding) for finding in found if finding is not None)

    return (
        lambda: tuple(cold_voltage(wiring, strings, volts) for strings, volts in zip(here, cold(), strict=True)),
        lambda: (short_circuit_current(wiring, here),),
        lambda: tuple(connectors(wiring, strings) for strings in here),
        lambda: (panel_power(wiring, here),),
        insulation,
        lambda: tuple(settled(finding) for finding in reverse_current(wiring, index, here)),
    )
