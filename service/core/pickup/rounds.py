"""Which of several rounds on one panel met no contact, which contradict each other, and was the meter itself silent?

Nought in one round and a good reading in another is far more often a probe, a connector, a blown fuse or the wrong
range than the panel; yet a joint inside that opens and closes looks the same. So neither is taken for granted.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from service.core.pickup.electric import (
    ISC,
    LEAST_FOR_CURRENT_W_PER_M2,
    LEAST_FOR_VOLTAGE_W_PER_M2,
    LEAST_SHARES,
    VOC,
    light_causes,
)
from service.core.pickup.facts import Between, Door, PanelReading, Quantity, Seen, cause

# Further apart no two rounds on one panel lie: 30 K of warmth take a tenth of the volts; amperes go with the light,
# which wanders, and by less than a third no lost string is seen (judgement).
_APART_SHARES: Mapping[str, float] = MappingProxyType({VOC: 0.1, ISC: 0.3})
_LEAST_W_PER_M2: Mapping[str, float] = MappingProxyType(
    {VOC: LEAST_FOR_VOLTAGE_W_PER_M2, ISC: LEAST_FOR_CURRENT_W_PER_M2}
)


@dataclass(frozen=True, slots=True)
class Rounds:
    """Readings of one quantity on one panel: those that count, and those that met no contact."""

    counted: tuple[PanelReading, ...]
    silent: tuple[PanelReading, ...]

    @property
    def share(self) -> float:
        """Share of the rounds with contact; 1 where none was silent."""
        return len(self.counted) / (len(self.counted) + len(self.silent)) if self.silent else 1.0


def rounds_of(group: Sequence[PanelReading], what: str) -> Rounds:
    """The rounds of one panel, in any order.

    What was read again without the shadow stands for what was read under it. A round is silent that reads next to
    nothing beside the best round of the same panel, whatever the light; where all do, all count.

    Args:
        group: readings of one panel.
        what: VOC or ISC.
    """
    read = [one for one in group if getattr(one, what) is not None]
    read = [one for one in read if not one.shaded] or read
    best = max((getattr(one, what) for one in read), default=0.0)
    silent = tuple(one for one in read if getattr(one, what) < LEAST_SHARES[what] * best)
    return Rounds(counted=tuple(one for one in read if one not in silent), silent=silent)


def rounds_apart(rounds: Rounds, what: str, door: Door) -> Quantity | None:
    """Rounds on one panel that contradict each other, by the lowest; None where none do, or where light is too low.

    Another panel read under the same name, or a fault that comes and goes: nobody can say which, and the worse counts.
    What was read under a shadow contradicts nothing.
    """
    read = [getattr(one, what) for one in rounds.counted if not one.shaded]
    too_dull = any(one.code != "light_not_known" for one in light_causes(door, _LEAST_W_PER_M2[what]))
    if not read or too_dull or min(read) >= (1.0 - _APART_SHARES[what]) * max(read):
        return None
    name, unit = ("voltage", "V") if what == VOC else ("current", "A")
    return Quantity(
        what=f"{name}_rounds", verdict=Seen.CANNOT_TELL, measured=min(read), unit=unit,
        low=(1.0 - _APART_SHARES[what]) * max(read), high=max(read),
        causes=(cause("rounds_disagree", quantity=name, least=min(read), most=max(read)),),
    )  # fmt: skip


def no_current_on_any(groups: Mapping[str, Sequence[PanelReading]], voltage: Between, current: Between) -> bool:
    """Do two panels or more give volts, and none of the lot any current? Then the meter's fuse is likelier than they.

    Args:
        groups: readings by panel.
        voltage: of a sound panel, in V.
        current: of a sound panel, in A.
    """
    dead = 0
    for group in groups.values():
        amperes = [one.short_circuit_current_a for one in group if one.short_circuit_current_a is not None]
        if any(one >= LEAST_SHARES[ISC] * current.likely for one in amperes):
            return False
        volts = max((one.open_circuit_voltage_v or 0.0 for one in group), default=0.0)
        dead += bool(amperes) and volts > voltage.likely / 2
    return dead > 1
