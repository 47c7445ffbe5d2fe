"""What is asked of a set whose panels hang on the inputs of a battery's box, not on those of the inverter?"""

from dataclasses import replace

from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup

# The findings of compatibility that these inputs decide about.
BOX_FINDINGS = ("cold_voltage", "short_circuit_current")


def on_box_inputs(setup: Setup, assumptions: Assumptions) -> tuple[Setup, Assumptions] | None:
    """The set with the limits of the box in place of those of the inverter's inputs; None where no box stands between.

    A limit that nobody gave is unknown: the inverter's own says nothing of a box. Only the operating current stays the
    inverter's where the box names none, for what passes on is drawn by the inverter in the end.
    """
    storage = setup.storage
    if storage is None or storage.coupling != "dc":
        return None
    inputs = tuple(
        replace(
            one,
            max_input_voltage_v=storage.max_input_voltage_v,
            max_short_circuit_current_a=storage.max_short_circuit_current_a,
            max_panel_short_circuit_current_a=None,
            max_current_a=one.max_current_a if storage.max_input_current_a is None else storage.max_input_current_a,
        )
        for one in setup.inverter.inputs
    )
    known = {
        pointer: one for pointer, one in assumptions.by_pointer.items() if not pointer.startswith("/inverter/inputs")
    }
    return replace(setup, inverter=replace(setup.inverter, inputs=inputs)), Assumptions(known)
