"""Do these panels suit this inverter, this socket and this circuit?

``check`` asks every question (``voltage``, ``current``, ``pairing`` per array and input; ``circuit`` for the home; the
rule card through ``core.rules``) and lets ``remedies`` try what would mend each refusal. ``matrix`` asks the same
questions of the panel side of many pairs: each row is one panel with its figures, each column one input.
"""

from service.core.compatibility.check import Checked, Compatibility, beside_panels, check, check_key
from service.core.compatibility.matrix import (
    Column,
    Dangers,
    Pair,
    Row,
    column_of,
    dangers_of,
    matrix,
    row_of,
    wired_alone,
)
from service.core.compatibility.over_voltage import over_voltage
from service.core.compatibility.wiring import Curves, Wiring

__all__ = [
    "Checked",
    "Column",
    "Compatibility",
    "Curves",
    "Dangers",
    "Pair",
    "Row",
    "Wiring",
    "beside_panels",
    "check",
    "check_key",
    "column_of",
    "dangers_of",
    "matrix",
    "over_voltage",
    "row_of",
    "wired_alone",
]
