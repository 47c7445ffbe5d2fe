"""Which curve does a panel work on, if its figures go together at all? Fitted once of each sheet met lately."""

from functools import lru_cache

from service.core.model.facts import Panel
from service.core.panel import Diode, check_outer, check_power, check_product, diode_of


@lru_cache(maxsize=512)  # a fit costs as much as a third of a year on it
def diode_of_sheet(panel: Panel) -> Diode:
    """The model of a panel whose figures were looked over.

    Raises:
        ContradictionError: they exclude each other, or make no curve; its pointer counts from the panel.
    """
    check_outer(panel)
    check_power(panel.rated_power_w, panel.open_circuit_voltage_v, panel.short_circuit_current_a)
    diode = diode_of(panel)
    check_product(panel)
    return diode
