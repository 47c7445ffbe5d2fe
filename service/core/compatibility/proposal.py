"""What is one change worth trying?"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import floor
from types import MappingProxyType

from service.core.compatibility.wiring import Wiring
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Verdict
from service.core.model.patch import Operation

LEAST_LIMIT_W = 50.0  # nobody turns an inverter down further
LIMIT_STEP_W = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A change that might mend a finding: of one field (``pointer``), several (``patch``) or the wiring (``rewired``).

    ``patch`` beside ``rewired``: how a request is rewired so, where it can hold that.

    ``promised``: the verdict of a change that no field of the request can hold, already computed.

    ``last_resort``: tried only where nothing before it mends.
    """

    code: str
    pointer: str | None = None
    new_value: Fact = None
    unit: str = ""
    who: str = "you"
    rewired: Wiring | None = None
    patch: tuple[Operation, ...] = ()
    promised: Verdict | None = None
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))
    last_resort: bool = False


def turned_down(setup: Setup, most_w: float) -> Iterator[Proposal]:
    """The highest setting of the inverter, in steps of 10 W, that stays within so many watts."""
    watts = LIMIT_STEP_W * floor(most_w / LIMIT_STEP_W + 1e-9)
    if LEAST_LIMIT_W <= watts < output_w(setup):
        yield Proposal(code="lower_set_limit", pointer="/inverter/set_limit_w", new_value=watts, unit="W")


def output_w(setup: Setup) -> float:
    """What the set can send out at most, W."""
    return min(setup.inverter.set_limit_w, setup.inverter.ac_power_w)
