"""Between which currents does the home's cable carry, where section, laying or warmth around it were not said?"""

from collections.abc import Iterable
from dataclasses import dataclass

from service.core.compatibility.conductors import AWG, METHODS, SECTIONS_MM2, Carrying, carrying_capacity, is_us
from service.core.compatibility.reach import Reach, rating
from service.core.model.assumption import Assumptions
from service.core.model.facts import SocketCircuit
from service.core.model.finding import Verdict

AMBIENT = "/socket_circuit/ambient_c"


@dataclass(frozen=True, slots=True, kw_only=True)
class Capacity:
    """Iz in A: its range, what is missing for one figure of a table, and the table's figures by the warmth around.

    ``ambients_c`` are one air temperature that was given, or the ends of the range that homes have, coolest first;
    ``by_ambient`` the table's figure at each, None where section or laying are open or no table reaches so far.
    """

    current: Reach
    ambients_c: tuple[float, ...]
    by_ambient: tuple[Carrying | None, ...]

    @property
    def ambient_open(self) -> bool:
        """Did nobody say how warm it gets around the cable?"""
        return len(self.ambients_c) > 1

    def shown(self, verdict: Verdict, taken_c: float) -> tuple[float, Carrying | None]:
        """The temperature and figure that carry a verdict: what fits does so even hot, what is refused even cool.

        An open question shows no figure where the warmth is open: ``taken_c`` with None.
        """
        if self.ambient_open and verdict == Verdict.NOT_KNOWN:
            return taken_c, None
        at = -1 if verdict == Verdict.FITS else 0
        return self.ambients_c[at], self.by_ambient[at]


def capacity_of(circuit: SocketCircuit, assumptions: Assumptions, area: str) -> Capacity:
    """What the circuit's cable may carry, over all that was not said of it.

    Section and laying are asked for in any case; the warmth opens the question only where it turns the verdict, which
    is for the caller to see from the range.
    """
    section = rating(assumptions, "/socket_circuit/cable_mm2", circuit.cable_mm2)
    laying_known = circuit.laying is not None and not assumptions.assumed("/socket_circuit/laying")
    warmth = rating(assumptions, AMBIENT, circuit.ambient_c)
    ranged = warmth.low is not None and warmth.high is not None
    missing = (
        *section.missing,
        *(() if laying_known or is_us(area) else ("/socket_circuit/laying",)),
        *(() if ranged else (AMBIENT,)),
    )
    layings = [circuit.laying] if laying_known and circuit.laying else list(METHODS)
    ambients_c = (warmth.low or 0.0, warmth.high or 0.0) if warmth.missing and ranged else (circuit.ambient_c,)

    def capacities(mm2: float, ambient_c: float) -> list[Carrying]:
        found = (carrying_capacity(mm2, way, ambient_c, area, circuit.voltage_v) for way in layings)
        return [carrying for carrying in found if carrying is not None]

    thinnest, thickest = section.value or 0.0, section.value or 0.0
    if section.value is None or section.missing:
        ends = (AWG[0][1], AWG[2][1]) if is_us(area) else (SECTIONS_MM2[0], SECTIONS_MM2[2])
        thinnest, thickest = section.low or ends[0], section.high or ends[1]
    hot, cool = capacities(thinnest, ambients_c[-1]), capacities(thickest, ambients_c[0])
    if not hot or not cool:
        nothing = Reach(None, None, None, missing or ("/socket_circuit/cable_mm2",))
        return Capacity(current=nothing, ambients_c=ambients_c, by_ambient=(None,) * len(ambients_c))
    least, most = _least(hot), max(carrying.current_a for carrying in cool)
    if missing:
        return Capacity(
            current=Reach(least, None, most, missing), ambients_c=ambients_c, by_ambient=(None,) * len(ambients_c)
        )
    figures = tuple(capacities(thinnest, ambient_c)[0] for ambient_c in ambients_c)
    return Capacity(current=Reach(least, least, most), ambients_c=ambients_c, by_ambient=figures)


def _least(carryings: Iterable[Carrying]) -> float:
    return min(carrying.current_a for carrying in carryings)
