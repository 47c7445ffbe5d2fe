"""What is the home, as far as was said, and how much does it draw?"""

from collections.abc import Sequence
from dataclasses import replace
from math import floor

import numpy as np

from service.core.completion.node import Guess, Node, listed
from service.core.errors import ContradictionError
from service.core.household import repeats_one_week, year_of_log
from service.core.model.facts import AtHome, Household, Machine, OtherGeneration
from service.core.model.hours import HOURS, Calendar
from service.core.model.place import Plane

_DEMAND_BY_PERSONS = {1: 1300.0, 2: 1900.0, 3: 2500.0, 4: 2900.0}
_SHARE_ALWAYS_ON = 0.15
# However even a home's hours are: at most so much of their mean is taken as always on, as evenness is no proof. A
# thermostat that switches every ten minutes gives hours without a ripple. Own hours: the upper end of the range about
# the share above; a profile tells of no single hour and gets the share itself.
_MOST_ALWAYS_ON = {"own_hours": 0.3, "averaged": _SHARE_ALWAYS_ON}
_LENGTHS = (24, 168, HOURS, HOURS + 24, 4 * HOURS, 4 * (HOURS + 24))
# A yearly figure beside the home's own hours is passed over aloud where it differs by more than rounding of a bill.
_SAME_SHARE = 0.01
_WEEKS_PER_YEAR = 365.0 / 7.0
_ROUNDED = 1e-6


def household_of(node: Node, calendar: Calendar, latitude_deg: float) -> Household:
    """The complete household; demand from its own hours or its meter's log where those were given.

    Raises:
        ContradictionError: the wrong number of values, or a log that tells too little.
    """
    demand_node = node.child("demand")
    values = _own_values(demand_node, calendar)
    kind = _kind(demand_node, values)
    persons = node.take("persons")
    demand = _demand(node, values, persons)
    always_on_w = node.take("always_on_w", _always_on(values, kind, demand))
    machines = _machines(node.children("machines"), demand - always_on_w * HOURS / 1000.0)
    return Household(
        demand_kwh_per_year=demand,
        persons=persons,
        always_on_w=always_on_w,
        at_home=_at_home(node.child_if_given("at_home")),
        machines=listed(node, "machines", machines),
        values_w=None if values is None else tuple(values),
        stay_years=node.get("stay_years"),
        values_kind=kind,
        filled_share=_filled_share(demand_node),
        other_generation=_other_generation(node.child_if_given("other_generation"), latitude_deg),
    )


def _own_values(node: Node, calendar: Calendar) -> Sequence[float] | None:
    log = node.child_if_given("log")
    values: Sequence[float] | None = node.get("values_w")
    if log is not None:
        if values is not None:
            raise ContradictionError(log.pointer, "stands beside values_w", accepted="one of the two", example="null")
        year = year_of_log(log.get("first"), log.get("step_minutes"), tuple(log.get("values_w")), calendar)
        node.given = {**node.given, "filled_share": round(year.filled_share, 4)}
        if year.filled_share > 0.0:
            node.assume("filled_share", Guess(value=round(year.filled_share, 4)))
        told = year.values_w if year.quarters_w is None else year.quarters_w
        return [round(value, 3) for value in told.tolist()]
    if values is not None and len(values) not in _LENGTHS:
        raise ContradictionError(
            node.at("values_w"), f"has {len(values)} values", given=len(values),
            accepted="24 (a day), 168 (a week), 8760 or 8784 (a year), 35040 or 35136 (its quarter-hours) powers in W",
            example=[210] * 24,
        )  # fmt: skip
    return values


def _filled_share(node: Node) -> float:
    return float(node.get("filled_share") or 0.0)


def _kind(node: Node, values: Sequence[float] | None) -> str | None:
    """Whether a year of hours is the home's own or a profile that repeats; None where the number of values tells."""
    given = node.get("kind")
    if values is None:
        return None
    if len(values) < HOURS:
        if given == "own_hours":
            raise ContradictionError(
                node.at("kind"), f"cannot be said of {len(values)} values", given=given,
                accepted="averaged, or a year of hours", example="averaged",
            )  # fmt: skip
        return None
    averaged = Guess(value="averaged", code="days_repeat")
    if given == "own_hours" and repeats_one_week(values):
        node.assume("kind", averaged)
        return "averaged"
    return str(node.take("kind", averaged if _repeats(values) else Guess(value="own_hours")))


def _repeats(values: Sequence[float]) -> bool:
    """Do fewer than half of the year's days have a course of their own? Then they are a profile, not what was drawn."""
    days = np.asarray(values, dtype=np.float64).reshape(-1, 24 * (len(values) // HOURS))
    course = np.round(days / np.maximum(days.mean(axis=1, keepdims=True), 1e-9), 6)
    return len(np.unique(course, axis=0)) < days.shape[0] / 2


def _demand(node: Node, values: Sequence[float] | None, persons: int) -> float:
    if values is None:
        kwh = _DEMAND_BY_PERSONS.get(persons, 2900.0 + 500.0 * (persons - 4))
        guess = Guess(value=kwh, code="usual_demand", low=0.6 * kwh, high=1.6 * kwh)
        return float(node.take("demand_kwh_per_year", guess))
    kwh = round(sum(values) / len(values) * 8.76, 1)
    said = node.get("demand_kwh_per_year")
    if said is not None and abs(said - kwh) > _SAME_SHARE * max(said, kwh):
        node.assume("demand_kwh_per_year", Guess(value=kwh, code="own_hours_say_otherwise"))
        return kwh
    return float(node.take("demand_kwh_per_year", Guess(value=kwh, code="sum_of_own_hours")))


def _always_on(values: Sequence[float] | None, kind: str | None, demand_kwh: float) -> Guess:
    """The power that is always drawn, from the demand.

    Of own hours what 99 % exceed (an outage is no habit). Of a profile by month its least hour. Of a mean day or week
    (a year of them, too) the least hour of the mean day, times that over the mean: the flatter it is, the more of it
    is always on. Never more than ``_MOST_ALWAYS_ON`` of the mean: an even day may be nothing but a mean.
    """
    if values is None:
        mean_w = demand_kwh / 8.76
        return Guess(value=round(_SHARE_ALWAYS_ON * mean_w, 1), code="share_of_demand", low=round(0.08 * mean_w, 1),
                     high=round(0.3 * mean_w, 1))  # fmt: skip
    hours = np.asarray(values, dtype=np.float64)
    if kind == "own_hours":
        floor = float(np.quantile(hours, 0.01))
    elif kind == "averaged" and not repeats_one_week(values):
        floor = float(hours.min())
    else:
        day = hours.reshape(-1, 24 * max(len(values) // HOURS, 1)).mean(axis=0)
        floor = float(day.min() ** 2 / day.mean()) if day.mean() > 0.0 else 0.0
    mean_w = float(hours.mean())
    most = _MOST_ALWAYS_ON["own_hours" if kind == "own_hours" else "averaged"] * mean_w
    if floor > most:
        low = round(0.08 * mean_w, 1)
        return Guess(value=round(most, 1), code="even_hours", low=low, high=round(min(floor, mean_w), 1))
    return Guess(value=round(floor, 1), code="least_of_own_hours")


def _machines(nodes: Sequence[Node], room_kwh: float) -> list[Machine]:
    """The machines; where all together need more than the home has above the floor, so much less a run, aloud."""
    machines = [_machine(node) for node in nodes]
    need_kwh = sum(machine.kwh_a_run * machine.runs_per_week for machine in machines) * _WEEKS_PER_YEAR
    if need_kwh <= max(room_kwh, 0.0) * (1.0 + _ROUNDED):
        return machines
    share = max(room_kwh, 0.0) / need_kwh
    cut = [floor(machine.kwh_a_run * share * 1e4) / 1e4 for machine in machines]
    for node, kwh in zip(nodes, cut, strict=True):
        node.assume("kwh_a_run", Guess(value=kwh, code="more_than_the_home_draws"))
    return [replace(machine, kwh_a_run=kwh) for machine, kwh in zip(machines, cut, strict=True)]


def _machine(node: Node) -> Machine:
    return Machine(
        name=node.take("name"),
        kwh_a_run=node.take("kwh_a_run"),
        runs_per_week=node.take("runs_per_week"),
        usual_hour=node.take("usual_hour"),
    )


def _at_home(node: Node | None) -> AtHome | None:
    if node is None:
        return None
    days = [tuple((pair[0], pair[1]) for pair in node.take(name)) for name in ("weekday", "weekend")]
    return AtHome(weekday=days[0], weekend=days[1])


def _other_generation(node: Node | None, latitude_deg: float) -> OtherGeneration | None:
    """The plant on the roof; without hours of its own it needs a size or a year, and gets a plane."""
    if node is None:
        return None
    values, power, year_kwh = (node.get(name) for name in ("values_w", "panel_power_w", "year_kwh"))
    if values is None and power is None and year_kwh is None:
        raise ContradictionError(
            node.pointer, "tells no size", accepted="one of panel_power_w, year_kwh and values_w",
            example={"panel_power_w": 400},
        )  # fmt: skip
    if values is not None and year_kwh is not None:
        raise ContradictionError(
            node.at("year_kwh"), "stands beside its hours", accepted="one of the two", example="null"
        )
    if values is not None and len(values) != HOURS:
        raise ContradictionError(
            node.at("values_w"), f"has {len(values)} values", given=len(values), accepted="8760 hourly mean powers",
            example="null",
        )  # fmt: skip
    return OtherGeneration(
        panel_power_w=power,
        plane=_roof_plane(node.child("plane"), latitude_deg) if values is None else None,
        year_kwh=year_kwh,
        values_w=None if values is None else tuple(values),
    )


def _roof_plane(node: Node, latitude_deg: float) -> Plane:
    towards_noon = 180.0 if latitude_deg >= 0.0 else 0.0
    return Plane(
        tilt_deg=node.take("tilt_deg"),
        azimuth_deg=node.take("azimuth_deg", Guess(value=towards_noon)),
    )
