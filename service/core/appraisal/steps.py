"""What is to be done, and when: from before buying to moving out?"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from service.core.appraisal.conditions import ON_BUILDING, Condition, of_findings
from service.core.appraisal.decision import Choice, Decision
from service.core.appraisal.many_panels import many_panels
from service.core.compatibility import Compatibility
from service.core.energy import EnergyYear
from service.core.fixing import FixingForces, fixing_forces
from service.core.model.amount import at_most
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Panel, Setup
from service.core.model.finding import Fact, Part, Verdict
from service.core.panel import diode_of, open_circuit_voltage_v

MOMENTS = (
    "before_buying", "at_the_door", "before_fitting", "before_plugging_in", "first_sunny_day", "each_spring",
    "after_storm", "moving_out",
)  # fmt: skip
# A demanded change of the things is made before they are paid, one of the wiring before it hangs out of reach; all
# else before the plug goes in.
_WHEN_MENDED = {
    "other_inverter": "before_buying",
    "other_panels": "before_buying",
    "like_panels": "before_buying",
    "one_panel_per_input": "before_fitting",
    "parallel_not_series": "before_fitting",
    "matched_connectors": "before_fitting",
    "string_fuses": "before_fitting",
}
# What cards say where no cost was read.
_COST_OPEN = frozenset({None, "", "unknown", "none found", "none stated", "no fee found"})
# Countries whose standards body is a member of CENELEC, in which EN 50549-1 was adopted (from memory).
_EN_50549 = frozenset({
    "AT", "BE", "BG", "CH", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU", "IE", "IS", "IT", "LT",
    "LU", "LV", "MK", "MT", "NL", "NO", "PL", "PT", "RO", "RS", "SE", "SI", "SK",
})  # fmt: skip
_LABEL = ("open_circuit_voltage_v", "short_circuit_current_a", "voc_coefficient_pct_per_k")
_INVERTER_LABEL = ("max_input_voltage_v", "max_short_circuit_current_a", "max_current_a")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do, with its moment and who does it: you or electrician. ``facts`` fill the sentence."""

    code: str
    when: str
    who: str = "you"
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


def steps_of(
    setup: Setup,
    assumptions: Assumptions,
    compatibility: Compatibility,
    energy: EnergyYear,
    decision: Decision,
    demanded: Sequence[Condition] | None = None,
    fixing: Callable[[Setup, Assumptions], FixingForces] = fixing_forces,
) -> tuple[Step, ...]:
    """The steps that this request calls for, in the order of ``MOMENTS``.

    A set not worth buying needs none, but for the advice on many panels: another way to connect them may be worth it.

    Args:
        setup: the set as it is to be built, the demanded remedies in place.
        assumptions: what of it was assumed.
        compatibility: its findings.
        energy: its year.
        decision: the decision about it.
        demanded: what has to be done to the set first; None: what the findings demand.
        fixing: the storm's forces on a set, where they may be at hand.

    Returns:
        Steps with their facts: expected open-circuit voltage at the door in V, expected power on clear days in W, the
        duty to register from the rule card, the weight to be fixed in kg, the storm's force on one panel in N.
    """
    advice = many_panels(setup, compatibility)
    many = tuple(Step(code=code, when="before_buying", facts=MappingProxyType(facts)) for code, facts in advice)
    if decision.verdict == Choice.NOT_WORTH_IT:
        return many
    demands = of_findings(compatibility.findings) if demanded is None else demanded
    steps = (
        *_mending(demands),
        *_before_buying(setup, assumptions, compatibility, decision),
        *many,
        *_at_the_door(setup),
        *_before_fitting(setup, fixing(setup, assumptions)),
        *_before_plugging_in(setup, demands),
        *_first_sunny_day(setup, energy),
        *_register(compatibility),
        *_later(setup, compatibility),
    )
    return tuple(sorted(steps, key=lambda step: MOMENTS.index(step.when)))


def _before_buying(
    setup: Setup, assumptions: Assumptions, compatibility: Compatibility, decision: Decision
) -> Iterable[Step]:
    missing = sorted({name for i in range(len(setup.arrays)) for name in _LABEL
                      if assumptions.assumed(f"/arrays/{i}/panel/{name}")}, key=_LABEL.index)  # fmt: skip
    if missing:
        yield _step("ask_panel_label", "before_buying", missing=", ".join(missing))
    limits = [name for name in _INVERTER_LABEL if assumptions.assumed(f"/inverter/inputs/0/{name}")]
    if limits:
        yield _step("ask_inverter_label", "before_buying", missing=", ".join(limits))
    if any(condition.cost is None for condition in decision.conditions):
        yield _step("ask_for_price", "before_buying")
    if decision.worth_up_to:
        yield _step(
            "compare_price", "before_buying", amount=at_most(decision.worth_up_to), currency=decision.currency,
        )  # fmt: skip
    if any(array.mount in ON_BUILDING for array in setup.arrays):
        yield _step("ask_consent", "before_buying")
    if any(f.part == Part.LOCAL_RULE and f.verdict == Verdict.NOT_KNOWN for f in compatibility.findings):
        yield _step("ask_operator", "before_buying", area=setup.site.rule_area)


def _at_the_door(setup: Setup) -> Iterable[Step]:
    arrays: dict[Panel, list[str]] = {}
    for array in setup.arrays:
        arrays.setdefault(array.panel, []).append(array.name)
    if any(panel.history != "unused" for panel in arrays):
        yield _step("look_panel_over", "at_the_door")  # a broken one is not touched, let alone measured
    for panel, names in arrays.items():
        low, high = door_voltage_v(panel)
        variant = "several" if len(arrays) > 1 else ""
        told = ", ".join(dict.fromkeys(names))
        yield _step("measure_voltage", "at_the_door", arrays=told, variant=variant, low_v=low, high_v=high)


@lru_cache(maxsize=512)  # a panel that was met lately is not fitted again
def door_voltage_v(panel: Panel) -> tuple[float, float]:
    """Between which open-circuit voltages, in V, does a good panel read in daylight?

    From 200 W/m2 at 50 C of cell to 1000 W/m2 at 5 C, less 2 % and more 2 % for the meter and the label's tolerance.
    Not for dusk, thick cloud or indoors, where it reads less.
    """
    diode = diode_of(panel)
    volts = open_circuit_voltage_v(diode, np.array([200.0, 1000.0]), np.array([50.0, 5.0]))
    return round(0.98 * float(volts[0]), 1), round(1.02 * float(volts[1]), 1)


def _before_fitting(setup: Setup, fixing: FixingForces) -> Iterable[Step]:
    weight = sum(array.count * array.panel.weight_kg for array in setup.arrays)
    yield _step("prove_fixing", "before_fitting", weight_kg=round(weight, 1),
                mounts=", ".join(dict.fromkeys(array.mount for array in setup.arrays)))  # fmt: skip
    forces = fixing.arrays
    if forces:
        worst = max(forces, key=lambda one: max(one.pull_n.cautious or 0.0, one.push_n.cautious or 0.0))
        yield _step(
            "fixing_force", "before_fitting", array=worst.name, capacity_n=worst.capacity_n,
            push_n=round(worst.push_n.middle or 0.0, -1), pull_n=round(worst.pull_n.middle or 0.0, -1),
            most_n=round(max(worst.pull_n.cautious or 0.0, worst.push_n.cautious or 0.0), -1),
            variant="" if worst.capacity_n is None else "stated",
        )  # fmt: skip
    yield _step("plan_wiring", "before_fitting", plan="; ".join(_wiring(array) for array in setup.arrays))
    yield _step("match_connectors", "before_fitting")  # whatever the kind: it says nothing about maker and type


def _wiring(array: Array) -> str:
    """An array's name and input, such as "left > 1" or "roof > 2 (2 in series)"."""
    several = f" ({array.count} in {array.joined})" if array.count > 1 else ""
    return f"{array.name} > {array.input}{several}"


def _mending(demanded: Iterable[Condition]) -> Iterable[Step]:
    """What the decision demands, at the moment for it; what somebody only has to be asked has steps of its own."""
    for one in demanded:
        if "finding" in one.facts:
            facts = {**one.facts, "remedy": one.code}
            when = _WHEN_MENDED.get(one.code, "before_plugging_in")
            yield Step(code="mend_first", when=when, who=one.who, facts=MappingProxyType(facts))


def _before_plugging_in(setup: Setup, demanded: Iterable[Condition]) -> Iterable[Step]:
    circuit = setup.socket_circuit
    if circuit is None or circuit.cable_mm2 is None or circuit.residual_current_device in {"none", "not_known"}:
        yield _step("have_circuit_checked", "before_plugging_in", "electrician")
    turned_down = setup.inverter.set_limit_w < setup.inverter.ac_power_w
    if turned_down and not any(one.code == "lower_set_limit" for one in demanded):
        yield _step("set_the_limit", "before_plugging_in", set_limit_w=setup.inverter.set_limit_w)
    if circuit is not None and circuit.lead_route in {"window", "door"}:
        yield _step("flat_lead", "before_plugging_in", route=circuit.lead_route)


def _register(compatibility: Compatibility) -> Iterable[Step]:
    """Whom to tell of the set: the last thing before plugging in, or after the first day."""
    duty = _duty(compatibility)
    if duty is not None:
        when = "first_sunny_day" if duty.get("before_or_after") == "after" else "before_plugging_in"
        facts = {"due": duty.get("when"), "whom": duty.get("who")}
        facts |= {"variant": "cost_open" if duty.get("cost") in _COST_OPEN else ""}
        facts |= {name: duty.get(name) for name in ("who", "cost", "before_or_after")}
        yield Step(code="register", when=when, facts=MappingProxyType(facts))


def _duty(compatibility: Compatibility) -> Mapping[str, Fact] | None:
    """The card's facts on whom to tell; None where it says that nobody has to be told."""
    found = next((f for f in compatibility.findings if f.code == "registration"), None)
    return None if found is None or found.facts.get("needed") == "no" else found.facts


def _first_sunny_day(setup: Setup, energy: EnergyYear) -> Iterable[Step]:
    # At least 60 s of a sound grid by EN 50549-1, 300 s by IEEE 1547 as set at first; both from memory. Where neither
    # is known to hold, both are told.
    area = setup.site.rule_area[:2]
    variant = "ieee_1547" if area == "US" else "en_50549" if area in _EN_50549 else ""
    yield _step("wait_for_grid", "first_sunny_day", least_s=60, longest_s=300, variant=variant)
    clear = {kind.season: max(kind.ac_w) for kind in energy.day_kinds if kind.kind == "clear"}
    if clear:
        best = max(clear, key=lambda season: (clear[season], season))
        least = min(clear, key=lambda season: (clear[season], season))
        yield _step("check_power", "first_sunny_day", best_season=best, best_w=round(clear[best]),
                    least_season=least, least_w=round(clear[least]))  # fmt: skip
    circuit = setup.socket_circuit
    if circuit is None or circuit.plug in {"household", "not_known"}:
        yield _step("feel_the_plug", "first_sunny_day")


def _later(setup: Setup, compatibility: Compatibility) -> Iterable[Step]:
    yield _step("clean", "each_spring", dirt_pct=round(100 * max(array.dirt_share for array in setup.arrays), 1))
    yield _step("retighten", "each_spring")
    yield _step("look_after_storm", "after_storm")
    yield _step("take_down", "moving_out")
    if _duty(compatibility) is not None:
        yield _step("deregister", "moving_out")


def _step(code: str, when: str, who: str = "you", **facts: Fact) -> Step:
    return Step(code=code, when=when, who=who, facts=MappingProxyType(facts))
