"""Do panels give more volts in the cold than their input survives? For answers that check nothing else of the fit."""

from service.core.compatibility.cold import voltage_at_cell
from service.core.compatibility.question import InputLimits
from service.core.compatibility.voltage import cold_voltage
from service.core.compatibility.wiring import Curves, Wiring
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Finding, Verdict


def over_voltage(setup: Setup, assumptions: Assumptions) -> tuple[Finding, ...]:
    """The findings ``cold_voltage`` of ``check`` where the set as completed gives more than its input survives.

    A few comparisons where no array does: then the answer is empty, which is no verdict (``check`` also asks how far
    off assumed ratings and the estimated cold may be). Remedies are not looked for.

    Raises:
        ContradictionError: an array stands on an input that the inverter does not have.
    """
    if not _over(setup):
        return ()
    wiring = Wiring(setup, assumptions, (), Curves())
    found = []
    for index, completed, here in wiring.inputs():
        limits = InputLimits(index, completed, assumptions, setup.inverter.connector_make)
        found += [cold_voltage(wiring, strings).finding(limits) for strings in here]
    return tuple(one for one in found if one is not None and Verdict.DOES_NOT_FIT in (one.verdict, one.likely))


def _over(setup: Setup) -> bool:
    """Is the cold string of some input above its limit, by the figures as they are?"""
    coldest_c, inputs = setup.site.coldest_air_c, setup.inverter.inputs
    one_string: dict[int, float] = {}
    for array in setup.arrays:
        limit_v = inputs[array.input - 1].max_input_voltage_v if array.input <= len(inputs) else None
        if limit_v is None:
            continue
        panel = array.panel
        volts = voltage_at_cell(panel.open_circuit_voltage_v, panel.voc_coefficient_pct_per_k, coldest_c)
        if array.joined != "parallel":
            volts *= array.count
        if array.joined == "one_string":
            volts = one_string[array.input] = one_string.get(array.input, 0.0) + volts
        if volts > limit_v:
            return True
    return False
