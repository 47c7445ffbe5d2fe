"""Which panels of a visit can be compared with one another, and how does each reading stand then?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from types import MappingProxyType

from service.core.pickup.electric import ISC, LEAST_FOR_CURRENT_W_PER_M2, VOC, no_daylight
from service.core.pickup.expected import (
    LABEL_CURRENT_SHARE,
    LABEL_VOLTAGE_SHARE,
    METER_CURRENT_SHARE,
    METER_VOLTAGE_SHARE,
    STANDARD_W_PER_M2,
)
from service.core.pickup.facts import Between, Door, PanelReading
from service.core.pickup.lot import Beside, Estimate, Tolerance, against_lot
from service.core.pickup.rounds import rounds_of

# The best of a lot itself proves daylight: no lamp makes a fifth of the label's current, nor this much of its voltage.
LEAST_CURRENT_SHARE = LEAST_FOR_CURRENT_W_PER_M2 / STANDARD_W_PER_M2
_LEAST_VOLTAGE_SHARE = 0.7
# Under a sky that was told, or beside a light meter, it is daylight anyhow, and in one light currents compare well
# below what predicts them.
_LEAST_OUTDOORS_SHARE = 0.1
TOLERANCES: Mapping[str, Tolerance] = MappingProxyType(
    {
        VOC: Tolerance(label_share=LABEL_VOLTAGE_SHARE, meter_share=METER_VOLTAGE_SHARE),
        ISC: Tolerance(label_share=LABEL_CURRENT_SHARE, meter_share=METER_CURRENT_SHARE),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SideBySide:
    """How panels stand in one quantity, and ``middle``, as of ``lot.against_lot``.

    Panels on which it was not read are not in ``stands``; ``not_compared`` are those of which there are several, in
    light that is too low for it.
    """

    stands: Mapping[str, str]
    middle: float | None
    tolerance: Tolerance

    def of(self, panel: str) -> str:
        """How a panel stands."""
        return self.stands.get(panel, "alone")

    @property
    def all_alike(self) -> bool:
        """Does none stand apart from the others, as far as they were compared?"""
        stands = set(self.stands.values())
        return stands <= {"alone", "agrees"} or stands == {"not_compared"}

    def of_round(self, panel: str, read: float) -> Beside:
        """How one round stands: one that reads as the lot does stands so, whatever the panel's others."""
        all_stand = tuple(self.stands.values())
        return Beside(
            stands=self._of_round(panel, read),
            middle=self.middle,
            all_alike=set(all_stand) <= {"agrees"},
            most_low=2 * all_stand.count("low") > len(all_stand),
        )

    def _of_round(self, panel: str, read: float) -> str:
        stands = self.of(panel)
        if self.middle is not None and stands in {"low", "high"}:
            off = read - self.middle if stands == "high" else self.middle - read
            return "agrees" if off < self.tolerance.one * self.middle else stands
        return stands


def side_by_side(groups: Mapping[str, Sequence[PanelReading]], what: str, door: Door, expected: Between) -> SideBySide:
    """How the panels of a lot stand in one quantity.

    Args:
        groups: readings by panel.
        what: VOC or ISC.
        door: the conditions.
        expected: what a sound panel reads.
    """
    values = {panel: median(read) for panel, group in groups.items() if (read := sound_rounds(group, what))}
    tolerance, ratings = TOLERANCES[what], door.ratings
    volts = what == VOC
    rating = ratings.open_circuit_voltage_v if volts else ratings.short_circuit_current_a
    if len(values) > 1 and (no_daylight(door) or max(values.values()) < _least_share(door, what) * rating.low):
        return SideBySide(stands=dict.fromkeys(values, "not_compared"), middle=None, tolerance=tolerance)
    known = ratings.voltage_known if volts else ratings.current_known
    estimate = Estimate(
        expected=expected,
        blind=door.light.origin == "not_known" or not known,
        guessed=not volts and door.light.guessed,
        firm=volts,
    )
    lot = against_lot(list(values.values()), tolerance, estimate)
    return SideBySide(
        stands=dict(zip(values, lot.stands, strict=True)), middle=lot.middle, tolerance=tolerance
    )  # fmt: skip


def _least_share(door: Door, what: str) -> float:
    """What the best of a lot must read of its label at least, so that the lot may be compared."""
    outdoors = door.light.origin in {"sky", "measured"}
    if what == VOC:
        return 0.0 if outdoors else _LEAST_VOLTAGE_SHARE
    return _LEAST_OUTDOORS_SHARE if outdoors else LEAST_CURRENT_SHARE


def sound_rounds(group: Sequence[PanelReading], what: str) -> list[float]:
    """What counts of the rounds on one panel; what was read under a shadow is no measure for others."""
    return [getattr(one, what) for one in rounds_of(group, what).counted if not one.shaded]
