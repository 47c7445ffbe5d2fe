"""Do the panels' amperes suit the input and each other: as energy, and as danger?"""

from collections.abc import Callable
from dataclasses import dataclass

from service.core.compatibility.conductors import is_us
from service.core.compatibility.finding import made
from service.core.compatibility.question import InputLimits, Question, printed, when_needed
from service.core.compatibility.reach import Outcome, Reach, at_most, combined, exactly, worse
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.facts import Array, Input
from service.core.model.finding import Fact, Finding, Part, Verdict, worst
from service.core.sky import REAR_OPENNESS, ground_share, sky_share

# Groups of arrays that are one string each, and how many such strings lie in parallel.
Pushing = tuple[tuple[tuple[Strings, ...], int], ...]

# The two meanings of an input's short-circuit figure.
ABSOLUTE, LARGEST_PANEL = "max_short_circuit_current_a", "max_panel_short_circuit_current_a"
# Irradiance above 1000 W/m2 (cloud edges, snow): IEC 62548 and NEC 690.8(A)(1).
DESIGN_FACTOR = 1.25
DESIGN_SOURCE = "1.25 x short-circuit current, IEC 62548, IEC 60364-7-712 and NEC 690.8(A)(1)"
LABEL_SOURCE = "the largest panel's label value as the maker of the inverter prints it"
REVERSE_SOURCE_US = (
    "NEC (NFPA 70) 690.9(A) with 690.8 (from memory): string fuses where (strings - 1) x 1.25 x short-circuit current "
    "exceeds the panel's fuse rating"
)
REVERSE_SOURCE = "IEC 62548: string fuses where (strings - 1) x short-circuit current exceeds the panel's fuse rating"

# A string's fuse over its short-circuit current, so that sun alone never opens it: IEC 62548-1; NEC 690.8 and 690.9 ask
# for 1.25 (sun) x 1.25 (hours on end). Both from memory.
FUSE_OVER_ISC, FUSE_OVER_ISC_US = 1.5, 1.5625

# What its own shadow leaves of the light on a free rear: so that at 37 degrees over ground that reflects 0.21 a panel
# gets the 135 W/m2 of the bifacial nameplate irradiance (IEC TS 60904-1-2; figures from memory).
FREE_ALL_AROUND = 0.68
CLEAR_SKY_SHARE = 0.10  # of full sun: diffuse light of a clear sky on level ground (Ineichen-Perez, turbidity 3)


def rear_light_share(array: Array, ground_reflectance_share: float) -> float:
    """Light on the rear over light on the front in full sun: what it sees of ground and sky, both even.

    The rear of a plane at tilt t is one at 180 - t: of the ground it sees (1 + cos t) / 2, of the sky (1 - cos t) / 2
    (Liu and Jordan, Solar Energy 7 (1963) 53-74). Of that its own shadow leaves two thirds where it stands free, the
    design value of the trade; before a dark facade a third is left, 0.05 of full sun over grass.
    """
    if array.rear_light_share is not None:
        return array.rear_light_share
    openness = REAR_OPENNESS.get(array.mount, FREE_ALL_AROUND)
    rear_tilt = 180.0 - array.plane.tilt_deg
    seen = ground_reflectance_share * ground_share(rear_tilt) + CLEAR_SKY_SHARE * sky_share(rear_tilt)
    return openness * float(seen)


def rear_gain_share(wiring: Wiring, strings: Strings) -> float:
    """How much the rear side adds to the panel's current: bifaciality times the light it gets."""
    share = strings.panel.bifaciality_share
    return share * _rear_light_share(wiring, strings) if share else 0.0


def _rear_light_share(wiring: Wiring, strings: Strings) -> float:
    return rear_light_share(strings.array, wiring.setup.site.ground_reflectance_share)


def operating_current(wiring: Wiring, here: tuple[Strings, ...]) -> Question:
    """Current at maximum power of all strings of an input against what it can draw: lost energy, never danger."""
    measured = _total(wiring, _counted(wiring, here), "max_power_current_a", factor=1.0, with_rear=True)

    def told(limits: InputLimits, outcome: Outcome) -> Finding:
        facts: dict[str, Fact] = {"strings": _strings(wiring, here), "worst_a": measured.highest}
        if outcome.verdict == Verdict.FITS_WITH_LOSS:
            facts["lost_in_full_sun_pct"] = _lost_in_full_sun_pct(wiring, here, limits.completed)
        return made(
            "operating_current", Part.PANEL_SIDE, outcome, limits.pointer, input_number=limits.index + 1, facts=facts,
            numbers=(measured.value, printed(limits.of("max_current_a")), "A"),
            source="datasheet of the inverter: the input draws at most this and works at a higher voltage",
        )  # fmt: skip

    return Question(lambda limits: at_most(measured, limits.of("max_current_a"), Verdict.FITS_WITH_LOSS), told)


def short_circuit_current(wiring: Wiring, here: tuple[Strings, ...]) -> Question:
    """What the panels can push into a failed input against what it survives: danger.

    A datasheet's figure has two meanings. The absolute maximum is compared with 1.25 x Isc, the largest panel's label
    value with Isc. One figure given for both says that nobody knows which: then the strict reading has to hold for
    ``fits``, and only the lenient one makes ``not_known``. Two different figures must both hold.
    """
    pushing = _counted(wiring, here)
    design = _total(wiring, pushing, "short_circuit_current_a", factor=DESIGN_FACTOR, with_rear=True)
    label = _total(wiring, pushing, "short_circuit_current_a", factor=1.0, with_rear=False)
    open_rear_sides = _with_open_rear_sides(wiring, pushing)

    def judged(limits: InputLimits) -> tuple[Outcome, str]:
        """The outcome, and which meaning of the figure it hangs on."""
        absolute, panels = limits.of(ABSOLUTE), limits.of(LARGEST_PANEL)
        if absolute.missing and not panels.missing:
            return at_most(label, panels), "label"
        strict, meaning = at_most(design, absolute), "" if absolute.missing else "absolute"
        if not panels.missing and not absolute.missing:
            lenient = at_most(label, panels)
            if panels.value == absolute.value:
                strict, meaning = _either_meaning(strict, lenient, limits.index), "either"
            elif _rank(lenient) > _rank(strict):
                return lenient, "label"
        return open_rear_sides(strict, absolute), meaning

    def told(limits: InputLimits, outcome: Outcome) -> Finding:
        _, meaning = judged(limits)
        by_label = meaning == "label"
        measured, name = (label, LARGEST_PANEL) if by_label else (design, ABSOLUTE)
        facts: dict[str, Fact] = {
            "strings": _strings(wiring, here), "design_current_a": design.value, "label_current_a": label.value,
            "rear_gain_share": max(rear_gain_share(wiring, s) for s in here), "worst_a": design.highest,
            "variant": meaning,
        }  # fmt: skip
        return made(
            "short_circuit_current", Part.PANEL_SIDE, outcome, limits.pointer, input_number=limits.index + 1,
            facts=facts, numbers=(measured.value, printed(limits.of(name)), "A"),
            source=LABEL_SOURCE if by_label else DESIGN_SOURCE,
        )  # fmt: skip

    return Question(lambda limits: judged(limits)[0], told)


def _with_open_rear_sides(
    wiring: Wiring, pushing: Pushing, factor: float = DESIGN_FACTOR
) -> Callable[[Outcome, Reach], Outcome]:
    """What fits with one-sided panels, or likely does, is not known where nobody said so and two-sided ones would not.

    A panel that is said to have foil behind its cells is taken as one-sided.
    """
    two_sided = when_needed(lambda: _if_two_sided(wiring, pushing, factor))

    def judged(outcome: Outcome, limit: Reach) -> Outcome:
        if outcome.likely != Verdict.FITS or limit.lowest is None:
            return outcome
        missing, most = two_sided()
        if not missing or most <= limit.lowest:
            return outcome
        return Outcome(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT, tuple(dict.fromkeys((*outcome.missing, *missing))))

    return judged


def _if_two_sided(wiring: Wiring, pushing: Pushing, factor: float) -> tuple[list[str], float]:
    """What of the rear sides nobody told, and the current with all that they may add, times the factor, in A."""
    missing: list[str] = []
    most = 0.0
    for group, n in pushing:
        amps = 0.0
        for strings in group:
            share = wiring.of_panel(strings, "bifaciality_share")
            foil = wiring.of_panel(strings, "glass")
            one_sided = strings.panel.glass == "glass_foil" and not foil.missing
            bifacial = (share.value if one_sided else share.highest) or 0.0
            if share.missing and not one_sided:
                missing.extend(share.missing)
            isc = wiring.of_panel(strings, "short_circuit_current_a").highest or 0.0
            amps = max(amps, isc * (1 + bifacial * _rear_light_share(wiring, strings)))
        most += factor * n * amps
    return missing, most


def reverse_current(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> tuple[Finding, ...]:
    """What the other strings can push backwards through a failed one against the fuse its panel is made for.

    Asked from three strings in parallel on. With two a panel stands what its own like can push, whatever nobody said
    of its fuse; it is asked where the neighbour is stronger, and told where the fuse is known and too small. A fuse in
    the string itself lets by no more than its rating.
    """
    strings = _strings(wiring, here)
    in_us = is_us(wiring.setup.site.rule_area)
    factor = DESIGN_FACTOR if in_us else 1.0
    findings = []
    for own in here:
        if strings < 2 and all(mate.array.string_fuse_a is None for mate in wiring.in_string(own)):
            continue
        pushing = tuple((g, left) for g, n in _counted(wiring, here) if (left := n - (own in g)))
        pushed = _total(wiring, pushing, "short_circuit_current_a", factor=factor, with_rear=True)
        limit = wiring.of_panel(own, "max_series_fuse_a")
        outcome = _with_open_rear_sides(wiring, pushing, factor)(at_most(pushed, limit), limit)
        own_a = own.panel.short_circuit_current_a
        stronger = any(s.panel.short_circuit_current_a > own_a for group, _ in pushing for s in group)
        told = outcome.verdict == Verdict.DOES_NOT_FIT or (stronger and outcome.verdict == Verdict.NOT_KNOWN)
        fuse = _fuse_of(wiring, own, FUSE_OVER_ISC_US if in_us else FUSE_OVER_ISC)
        if fuse.rating_a is None and strings == 2 and not told:
            continue
        facts: dict[str, Fact] = {
            "strings": strings, "array": own.array.name, "label_current_a": own_a, "least_fuse_a": fuse.least.value,
        }  # fmt: skip
        measured = pushed.value
        if fuse.rating_a is not None:
            outcome, variant = fuse.judged(outcome, limit)
            if variant:
                measured, facts["variant"] = fuse.rating_a, variant
        findings.append(
            made(
                "reverse_current", Part.PANEL_SIDE, outcome, f"{own.pointer}/panel", input_number=index + 1,
                facts=facts, numbers=(measured, printed(limit), "A"),
                source=REVERSE_SOURCE_US if in_us else REVERSE_SOURCE,
            )
        )  # fmt: skip
    return tuple(findings)


@dataclass(frozen=True, slots=True)
class _Fuse:
    """The fuse in a string, None where there is none, and the least that sun alone never opens."""

    rating_a: float | None
    least: Reach
    open_rear_sides: Callable[[Outcome, Reach], Outcome]

    def judged(self, unfused: Outcome, limit: Reach) -> tuple[Outcome, str]:
        """The outcome with the fuse, and which sentence tells it; empty where the unfused one stands.

        One that the string's own current may open does not fit; one of at most the panel's rating protects it.
        """
        rating = exactly(self.rating_a or 0.0)
        holds = self.open_rear_sides(at_most(self.least, rating), rating)
        if holds.verdict == Verdict.DOES_NOT_FIT:
            return holds, "small_fuse"
        if holds.verdict == unfused.verdict == Verdict.FITS:
            return unfused, ""
        behind = unfused if unfused.verdict == Verdict.FITS else at_most(rating, limit)
        return worse(behind, holds), "small_fuse" if holds.verdict != Verdict.FITS else "fused"


def _fuse_of(wiring: Wiring, own: Strings, over_isc: float) -> _Fuse:
    """The smallest fuse in the string of an array; its strongest panel's current counts, with light on the rear."""
    mates = wiring.in_string(own)
    given = [mate.array.string_fuse_a for mate in mates if mate.array.string_fuse_a is not None]

    def least(mate: Strings) -> Reach:
        times = over_isc * (1 + rear_gain_share(wiring, mate))
        return combined(lambda amps: times * amps, wiring.of_panel(mate, "short_circuit_current_a"))

    carries = combined(lambda *amps: max(amps), *map(least, mates))
    return _Fuse(min(given, default=None), carries, _with_open_rear_sides(wiring, ((mates, 1),), over_isc))


def _counted(wiring: Wiring, here: tuple[Strings, ...]) -> Pushing:
    """What lies in parallel on an input, each with how many strings of it there are."""
    return tuple((group, group[0].in_parallel) for group in wiring.side_by_side(here))


def _total(wiring: Wiring, pushing: Pushing, name: str, *, factor: float, with_rear: bool) -> Reach:
    """A current of the panel summed over strings in parallel, times the factor and the rear side's share.

    Of a string of unlike panels the strongest counts: it may push its own while the others' bypass diodes carry it.
    """

    def scaled(strings: Strings, n: int) -> Reach:
        times = factor * n * (1 + (rear_gain_share(wiring, strings) if with_rear else 0.0))
        return combined(lambda amps: times * amps, wiring.of_panel(strings, name))

    if len(pushing) == 1 and len(pushing[0][0]) == 1:
        return scaled(pushing[0][0][0], pushing[0][1])
    groups = (
        scaled(group[0], n) if len(group) == 1 else combined(lambda *amps: max(amps), *(scaled(s, n) for s in group))
        for group, n in pushing
    )
    return combined(lambda *amps: sum(amps), *groups)


def _either_meaning(strict: Outcome, lenient: Outcome, index: int) -> Outcome:
    if strict.verdict == Verdict.FITS or lenient.verdict == Verdict.DOES_NOT_FIT:
        return Outcome(lenient.verdict, lenient.likely, lenient.missing)
    likely = worst((strict.likely, lenient.likely))
    pointer = f"/inverter/inputs/{index}/{ABSOLUTE}"
    return Outcome(Verdict.NOT_KNOWN, likely, (*strict.missing, pointer))


def _lost_in_full_sun_pct(wiring: Wiring, here: tuple[Strings, ...], limits: Input) -> float | None:
    """Per cent of the power at 1000 W/m2 and 25 C that the current limit leaves; None for unlike panels."""
    first = here[0]
    if len(wiring.side_by_side(here)) < len(here):
        return None
    if any(s.panel != first.panel or s.in_series != first.in_series for s in here):
        return None
    strings = sum(s.in_parallel * (1 + rear_gain_share(wiring, s)) for s in here)
    return wiring.curves.lost_to_current_pct(first.panel, first.in_series, strings, limits)


def _rank(outcome: Outcome) -> int:
    return (Verdict.FITS, Verdict.FITS_WITH_LOSS, Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT).index(outcome.verdict)


def _strings(wiring: Wiring, here: tuple[Strings, ...]) -> int:
    return sum(group[0].in_parallel for group in wiring.side_by_side(here))
