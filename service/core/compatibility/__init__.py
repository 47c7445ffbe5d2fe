"""Do these panels suit this inverter, this socket and this circuit?

``check`` asks every question (``voltage``, ``current``, ``pairing`` per array and input; ``circuit`` for the home; the
rule card through ``core.rules``) and lets ``remedies`` try what would mend each refusal. ``matrix`` asks the panel side
of many pairs.
"""

from service.core.compatibility.check import Compatibility, check
from service.core.compatibility.matrix import Pair, matrix
from service.core.compatibility.wiring import Curves

__all__ = ["Compatibility", "Curves", "Pair", "check", "matrix"]
