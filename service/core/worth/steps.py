"""How much of a power is used at home in each hour, where demand is known by the hour or by the quarter-hour?

The closed form is reckoned within each step that is known and summed: quarter-hours tell what hours hide, and only what
is within them is left to the form. Production stays what it is over the hour.
"""

from dataclasses import dataclass, replace

import numpy as np

from service.core.household import k_of, k_of_quarters, on_one_phase_w, quarters_w, self_used_w, used_beside_w
from service.core.model.facts import Household, Meter
from service.core.model.hours import HOURS, Floats, Ints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DemandInSteps:
    """The demand on the meter in steps, (8760,) hours or (35040,) quarter-hours in W, and the shape k within them.

    ``an_hour``: so many steps are an hour.
    """

    demand_w: Floats
    always_on_w: float
    k: float
    an_hour: int = 1

    @classmethod
    def of(cls, household: Household, meter: Meter, demand_w: Floats) -> "DemandInSteps":
        """Of a home whose hours draw ``demand_w``; on the set's phase alone where the meter does not sum."""
        quarters = quarters_w(household)
        steps, k = demand_w, k_of(household, meter.netting)
        if quarters is not None and meter.netting != "hour":
            steps, k = quarters, k_of_quarters(household, meter.netting)
        always_on_w = household.always_on_w
        if meter.sums_phases is False:
            steps, always_on_w = on_one_phase_w(steps, always_on_w)
        return cls(demand_w=steps, always_on_w=always_on_w, k=k, an_hour=steps.size // HOURS)

    def in_hours(self, rows: Ints) -> "DemandInSteps":
        """Of these hours alone."""
        return replace(self, demand_w=self.steps_in(self.demand_w, rows))

    def steps_in(self, steps_w: Floats, rows: Ints) -> Floats:
        """Of powers by step those in these hours."""
        return np.asarray(steps_w.reshape(-1, self.an_hour)[rows].ravel())

    def used_w(self, power_w: Floats) -> Floats:
        """Expected power used at home of ``power_w``, (..., 8760), in each hour."""
        return self.hours(self.used_in_steps_w(power_w))

    def used_in_steps_w(self, power_w: Floats) -> Floats:
        """The same in each step."""
        return self_used_w(self._steps(power_w), self.demand_w, self.always_on_w, self.k)

    def used_beside_w(self, power_w: Floats, other_w: Floats, other_used_w: Floats) -> Floats:
        """The same beside a plant of ``other_w`` by the hour, of which ``other_used_w`` is used in each step."""
        other, power = self._steps(other_w), self._steps(power_w)
        return self.hours(used_beside_w(power, self.demand_w, self.always_on_w, self.k, other, other_used_w))

    def hours(self, steps_w: Floats) -> Floats:
        """(..., 8760) means of steps."""
        if self.an_hour == 1:
            return steps_w
        return np.asarray(steps_w.reshape(*steps_w.shape[:-1], -1, self.an_hour).mean(axis=-1))

    def _steps(self, hours_w: Floats) -> Floats:
        return hours_w if self.an_hour == 1 else np.repeat(hours_w, self.an_hour, axis=-1)
