"""How is the use at home answered?"""

from collections.abc import Sequence
from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Out
from service.core.worth import Habit, UseAtHome


class HabitOut(Out):
    """The best hour to start a machine, and what that gains over its usual hour: honest and small."""

    machine: str = Field(max_length=60)
    usual_start: str = Field(description="Wall clock, HH:MM.", max_length=5)
    best_start: str = Field(description="Wall clock, HH:MM; the usual hour where no other is better.", max_length=5)
    gain_kwh_per_year: r.Kwh = Field(
        description="More of the home's own power used than at the usual hour: of the set's yield, and of a plant on "
        "the roof where there is one."
    )
    gain_per_year: r.Money | None = Field(description="In money, at the prices of the hours; null without a price.")
    currency: str | None = Field(description="ISO 4217 code of that money.", max_length=3)


class OtherShareOut(Out):
    """What the plant on the roof takes first, and what of the set's use at home it displaces."""

    year_kwh: r.Kwh = Field(description="What the plant on the roof gives.")
    self_used_kwh: r.Kwh = Field(description="What of that is used at home.")
    set_alone_self_used_kwh: r.Kwh = Field(description="What would be used of this set if the plant were not there.")
    displaced_kwh: r.Kwh = Field(description="How much less of this set is used because of the plant.")


class UseOut(Out):
    """What of the year is used at home, as the meter sees it."""

    self_used_kwh: KwhBandOut
    self_used_share: r.Share = Field(description="Of what is produced.")
    upper_bound_self_used_kwh: r.Kwh = Field(
        description="The hourly minimum of yield and demand; flattering, as demand within an hour is not even."
    )
    exported_kwh: r.Kwh
    covered_share: r.Share = Field(description="Of what the home needs.")
    demand_kwh: r.Kwh = Field(description="What the home needs in a year.")
    other_generation: OtherShareOut | None = Field(description="Of the plant on the roof; null where there is none.")
    habits: list[HabitOut] = Field(
        description="For each machine the best hour to start it, reckoned together in the order of your list: "
        "each sees what those before it leave, so gains add up, and never to more than is sent out."
    )

    @classmethod
    def of(cls, use: UseAtHome, habits: Sequence[Habit], currency: str | None) -> Self:
        """The use at home with its habits, money in the tariff's currency."""
        said = [
            HabitOut.from_core(habit, currency=None if habit.gain_per_year is None else currency) for habit in habits
        ]
        return cls.from_core(use, habits=said)
