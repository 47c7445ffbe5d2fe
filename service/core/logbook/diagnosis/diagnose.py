"""What is wrong with the set, how sure is it, and what does it cost?"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.logbook.diagnosis.evidence import Evidence, evidence_of
from service.core.logbook.diagnosis.plane_fit import PlaneFit
from service.core.logbook.diagnosis.ruled_out import ruled_out, weighable
from service.core.logbook.diagnosis.weighing import NOTHING_UNUSUAL, case_of, sureness_of
from service.core.logbook.series import LoggedSeries
from service.core.model.cause_weights import CauseWeights
from service.core.model.climate import PlaceClimate
from service.core.model.facts import Setup
from service.core.model.weather import GivenWeather

SOMETHING_WRONG, CANNOT_TELL = "something_wrong", "cannot_tell"
_DEAD = "input_dead"
_LEFT = MappingProxyType({"input_dead": "dead_share", "bypass_section_lost": "section_share"})  # logarithms
LEAST_DAYS = 5  # with light and readings, for anything to be said
_LEAST_SHOWN_SHARE = 0.05
_SURE_STEP = 4.0
# In less than three weeks without their weather a few odd days look like anything: only a strong shape raises an alarm,
# no level (see _OF_LEVEL), which the comparison with the season judges with its doubt.
_SHORT_DAYS, _STRONG_SHARE = 20, 0.95
# What the log's own days would have shown: the factor is where nine of ten made-up faults of a size are found.
_LEAST_TELLING_DAYS, _MOST_TELLING_DAYS, _FLOOR_DAY_SD, _NINE_TENTHS_SD = 3.0, 12.0, 0.03, 2.56
_PLACE_SD, _PLACE_SD_WEATHER, _SEEN_SD = 0.055, 0.03, 2.5
_OF_LEVEL = frozenset({"input_dead", "bypass_section_lost", "dirt_drift", "fast_ageing"})

_NOUGHT = 1e-6
_DESCRIBES = frozenset(  # where or from when, which says nothing of whether
    {"held_back_from_c", "flat_top_w", "top_over_stated_limit_share", "sector_edge_from_noon_deg", "below_height_deg"}
)
_RAISED_ALARM_SHARE = 0.5
_LEAST_EFFECT_SHARE, _CLOCK = 0.005, "clock_shift"  # a clock that is off hides a fall, though it costs nothing

# What is shown for a cause: the quantity, the name it is shown under, and whether it is a logarithm of a share.
_SHOWN: Mapping[str, tuple[tuple[str, str, bool], ...]] = MappingProxyType(
    {
        "input_dead": (
            ("level", "usual_level_share", True),
            ("dead_share", "level_if_dead_share", True),
            ("dead_gain", "better_explained_log", False),
            ("dead_days_share", "days_at_that_level_share", False),
            ("level_after", "level_after_step_share", True),
            ("tops_level", "level_of_best_hours_share", True),
            ("tops_dead", "likelier_by_best_hours_log", False),
        ),
        "bypass_section_lost": (
            ("level", "usual_level_share", True),
            ("section_share", "level_if_section_lost_share", True),
            ("section_days_share", "days_at_that_level_share", False),
            ("level_after", "level_after_step_share", True),
            ("tops_level", "level_of_best_hours_share", True),
            ("tops_section", "likelier_by_best_hours_log", False),
        ),
        "limit_lower_than_stated": (
            ("limit_w", "flat_top_w", False),
            ("top_under_limit", "top_over_stated_limit_share", False),
            ("top_full_share", "bright_steps_at_top_share", False),
            ("limit_gain", "better_explained_log", False),
        ),
        "undeclared_shade": (
            ("shade_blocked_share", "blocked_share", False),
            ("shade_edge_deg", "sector_edge_from_noon_deg", False),
            ("shade_below_deg", "below_height_deg", False),
            ("shade_energy_share", "energy_share", False),
            ("shade_gain", "better_explained_log", False),
        ),
        "plane_differs": (("plane_gain", "better_explained_log", False),),
        "dirt_drift": (
            ("drift_rate_per_day", "fall_per_day_share", False),
            ("drift_leaps", "leaps_per_month", False),
            ("drift_gain", "better_explained_log", False),
            ("dry_fall_per_day", "change_per_dry_day_log", False),
            ("wash_rise", "change_over_dull_days_log", False),
        ),
        "heat_derating": (
            ("heat_from_c", "held_back_from_c", False),
            ("heat_energy_share", "energy_share", False),
            ("heat_gain", "better_explained_log", False),
        ),
        "grid_trips": (
            ("holes_per_h", "holes_per_bright_hour", False),
            ("quiet_dips_per_h", "dips_per_bright_clear_hour", False),
            ("clear_dip_energy_share", "energy_share", False),
            ("calm_lost_share", "less_calm_at_high_output_share", False),
            ("sunny_lost_log", "lower_at_high_output_log", False),
            ("top_lost_share", "energy_missing_at_high_output_share", False),
        ),
        "wet_trips": (("late_days_share", "late_days_share", False), ("late_h", "late_by_h", False)),
        "clock_shift": (
            ("clock_gain", "better_explained_log", False),
            ("dark_share", "energy_in_the_dark_share", False),
        ),
        "fast_ageing": (
            ("trend_per_year", "change_per_year_log", False),
            ("trend_sureness", "change_over_its_error", False),
        ),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """One possible cause.

    ``effect_share`` is the part of the energy of the logged time that it costs (below 0: the set gives more so); None
    where it cannot be told. ``evidence``: the quantities that speak for it, by names that carry their units.
    ``since_day``: the first day that shows it, from 1 January 1970; None: not told.
    ``lasting_share``: the part of a year's energy that it costs while it lasts; None: the same as ``effect_share``.
    """

    code: str
    sureness_share: float
    effect_share: float | None
    evidence: Mapping[str, float]
    since_day: int | None = None
    lasting_share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """What a log says of the set.

    Attributes:
        conclusion: ``nothing_unusual``, ``something_wrong`` or ``cannot_tell`` (too little was logged).
        sureness_share: that something is wrong, whatever it is.
        suspects: the surest first; also below an alarm, for whoever wants to look.
        plane: the planes that clear days speak for, as a turn from the stated ones; None where days only are known.
        clear_days: how many were found.
        would_have_seen_share: a fault that takes so much of the output would have shown on the days that tell the level
            (clear ones, or all where their weather was sent along), nine times in ten; None where too few days do.
    """

    conclusion: str
    sureness_share: float
    suspects: tuple[Suspect, ...]
    plane: PlaneFit | None
    clear_days: int
    would_have_seen_share: float | None = None


def suspects(
    series: LoggedSeries,
    setup: Setup,
    climate: PlaceClimate,
    weights: CauseWeights,
    weather: GivenWeather | None = None,
    *,
    excluded: Collection[str] = (),
    tries: int = 1,
) -> Diagnosis:
    """Judge a log.

    Args:
        series: the cleaned log, of the whole set or of one input.
        setup: the set as stated.
        climate: of the place.
        weights: see ``weighing``.
        weather: of those days, where it was sent along.
        excluded: causes that are known otherwise not to be.
        tries: so many logs of one set decide whether to raise an alarm, of which this is one: so much surer it has to
            be for it, that all of them together accuse no more sound sets than one alone.

    Raises:
        ContradictionError: a panel's datasheet makes no curve.

    Causes that the log shows nothing of, or cannot show, are ruled out (see ``ruled_out``): what speaks for them is
    left to the others and to nothing at all, in their proportion. Wrong by the table of
    ``python -m service bench logbook``: some logs in a hundred are called wrong that are not.
    """
    if _days_known(series) < LEAST_DAYS:
        return Diagnosis(conclusion=CANNOT_TELL, sureness_share=0.0, suspects=(), plane=None, clear_days=0)
    evidence = evidence_of(series, setup, climate, weather)
    case = case_of(by_the_hour=evidence.by_the_hour, with_weather=evidence.with_weather)
    shares = _possible(sureness_of(weighable(evidence.named, excluded), weights, case), evidence, excluded)
    causes = sorted((code for code in shares if code != NOTHING_UNUSUAL), key=lambda code: -shares[code])
    alarm = bool(causes) and _enough(1.0 - shares[NOTHING_UNUSUAL], weights.cases[case].alarm_from_share, tries)
    short = series.start_s[-1] - series.start_s[0] <= _SHORT_DAYS * 86_400 and not evidence.with_weather
    if short:
        alarm = alarm and causes[0] not in _OF_LEVEL and _enough(shares[causes[0]], _STRONG_SHARE, tries)
    elif _raised(shares, evidence):
        causes.sort(key=lambda code: -shares[code])
        alarm = alarm or _enough(shares[causes[0]], _RAISED_ALARM_SHARE, tries)
    wrong = 1.0 - shares[NOTHING_UNUSUAL]
    plain = [one for one in _plainly_shown(evidence) if one.code not in excluded]
    others = 1.0 - max((one.sureness_share for one in plain), default=0.0)
    shares = {code: share * others for code, share in shares.items()}
    alarm = alarm or bool(plain)
    likely = [
        code for k, code in enumerate(causes) if shares[code] >= _LEAST_SHOWN_SHARE or (alarm and k == 0 and not plain)
    ]
    told = sorted(
        [*plain, *(_suspect(code, shares[code], evidence) for code in likely)], key=lambda one: -one.sureness_share
    )
    return Diagnosis(
        conclusion=SOMETHING_WRONG if alarm else NOTHING_UNUSUAL,
        sureness_share=1.0 - (1.0 - wrong) * others,
        suspects=tuple(told),
        plane=evidence.plane,
        clear_days=int(evidence.course.clear.size) if evidence.course.sure else 0,
        would_have_seen_share=_would_have_seen(evidence),
    )


def _possible(shares: Mapping[str, float], evidence: Evidence, excluded: Collection[str]) -> dict[str, float]:
    """The shares of those causes that can be, and of nothing at all, made to 1 again."""
    out = {*ruled_out(evidence.named), *excluded}
    out |= {code for code in shares if code != NOTHING_UNUSUAL and code not in out and _bare(code, evidence)}
    left = sum(share for code, share in shares.items() if code not in out)
    return {code: share / left for code, share in shares.items() if code not in out}


def _enough(share: float, from_share: float, tries: int) -> bool:
    """Is it sure enough for an alarm, where the doubt that is allowed is shared by so many tries?"""
    return share >= 1.0 - (1.0 - from_share) / tries


def _bare(code: str, evidence: Evidence) -> bool:
    """Is all of its own evidence nought?"""
    shown = _suspect(code, 0.0, evidence).evidence
    return all(abs(value) < _NOUGHT for name, value in shown.items() if name not in _DESCRIBES)


def _raised(shares: dict[str, float], evidence: Evidence) -> bool:
    """A fall of the best hours makes an input dead surer, as far as no other cause explains the log better."""
    if evidence.fall is None or _DEAD not in shares:
        return False
    others = max(
        (shares[code] for code in shares if code != NOTHING_UNUSUAL and _explains_a_fall(code, evidence)), default=0.0
    )
    before, raised = shares[_DEAD], evidence.fall.sureness_share * (1.0 - others)
    if raised > before:
        left = (1.0 - raised) / (1.0 - before)
        shares |= {code: share * left for code, share in shares.items()}
        shares[_DEAD] = raised
    return True


def _explains_a_fall(code: str, evidence: Evidence) -> bool:
    """May it stand before a fall that has a date? Not if it takes nothing of the energy."""
    effect = _effect(code, evidence)
    return code != _DEAD and (code == _CLOCK or effect is None or effect >= _LEAST_EFFECT_SHARE)


def _would_have_seen(evidence: Evidence) -> float | None:
    """What would have been seen, by how far the days' levels lie apart and the air and the label leave them open."""
    if not evidence.by_the_hour:
        return None
    lead = "w_" if "w_known_days" in evidence.named else ""
    days = (
        evidence.named["w_known_days"] if lead else (float(evidence.levels.day.size) if evidence.course.sure else 0.0)
    )
    if days < _LEAST_TELLING_DAYS:
        return None
    of_a_day = max(evidence.named[f"{lead}level_spread"] / _NINE_TENTHS_SD, _FLOOR_DAY_SD)
    sd = float(np.hypot(_PLACE_SD_WEATHER if lead else _PLACE_SD, of_a_day / np.sqrt(min(days, _MOST_TELLING_DAYS))))
    return 1.0 - float(np.exp(-_SEEN_SD * sd))


def _plainly_shown(evidence: Evidence) -> list[Suspect]:
    """Causes that are seen by one comparison of their own, without weighing."""
    shown = (("shade_grown", evidence.grown), ("low_voltage_off", evidence.low_voltage))
    return [
        Suspect(code=code, sureness_share=one.sureness_share, effect_share=one.energy_share, evidence=one.shown())
        for code, one in shown
        if one is not None
    ]


def _days_known(series: LoggedSeries) -> int:
    """On how many days something was logged."""
    given = np.isfinite(series.energy_wh) & (series.energy_wh > 0.0)
    return int(np.unique(series.start_s[given] // 86_400).size)


def _suspect(code: str, share: float, evidence: Evidence) -> Suspect:
    named = evidence.named
    shown: dict[str, float] = {}
    for quantity, name, is_log in _SHOWN[code]:
        told = [named.get(f"{lead}{quantity}", float("nan")) for lead in ("w_", "", "s_")]
        found = next((value for value in told if np.isfinite(value)), None)  # of all days, clear ones, clear stretches
        if found is not None:
            shown[name] = float(np.exp(found)) if is_log else found
    if code == "plane_differs" and evidence.plane is not None:
        plane = evidence.plane
        shown |= {
            "tilt_by_deg": plane.tilt_by_deg, "tilt_half_width_deg": plane.tilt_half_width_deg,
            "azimuth_by_deg": plane.azimuth_by_deg, "azimuth_half_width_deg": plane.azimuth_half_width_deg,
        }  # fmt: skip
    if code == "clock_shift":
        shown["fast_by_h"] = named["clock_ahead_h"]
    fall = evidence.fall
    if code == _DEAD and fall is not None:
        shown |= {
            "level_of_best_hours_after_share": fall.left_share, "days_before": float(fall.days_before),
            "days_after": float(fall.days_after), "likelier_by_fall_log": fall.log_gain,
        }  # fmt: skip
    return Suspect(
        code=code, sureness_share=share, effect_share=_effect(code, evidence), evidence=shown,
        since_day=fall.since_day if code == _DEAD and fall is not None else None,
        lasting_share=_lasting(code, evidence),
    )  # fmt: skip


def _found_in(named: Mapping[str, float]) -> Callable[[str], float]:
    """Quantities by their name, of all days where their weather is known; 0 where there is none."""

    def of(name: str) -> float:
        found = named.get(f"w_{name}", named.get(name, 0.0))
        return found if np.isfinite(found) else 0.0

    return of


def _lasting(code: str, evidence: Evidence) -> float | None:
    """What a cause that began within the log costs from its day on; None: it was there all the time."""
    if code == _DEAD and evidence.fall is not None:
        return 1.0 - evidence.fall.left_share
    if code not in _LEFT:
        return None
    of = _found_in(evidence.named)
    left_log = of(_LEFT[code])
    return 1.0 - float(np.exp(left_log)) if left_log < 0.0 and _fell(left_log, of) else None


def _effect(code: str, evidence: Evidence) -> float | None:
    """Share of the energy that a cause costs, were it the one."""
    of = _found_in(evidence.named)
    if code == _DEAD and evidence.fall is not None:
        return (1.0 - evidence.fall.left_share) * (1.0 - evidence.fall.at_share)
    if code in _LEFT:
        return _effect_of_level(of(_LEFT[code]), of)
    effect: dict[str, float | None] = {
        "dirt_drift": max(1.0 - float(np.exp(of("level") - of("level_top"))), 0.0),
        "fast_ageing": max(-0.5 * of("trend_per_year"), 0.0),
        "undeclared_shade": evidence.costs.get(code, of("shade_energy_share")),
        "heat_derating": evidence.costs.get(code, 0.0),
        "grid_trips": of("clear_dip_energy_share"),
        "limit_lower_than_stated": evidence.costs.get(code, 0.0),
        "plane_differs": None if evidence.plane is None else evidence.plane.effect_share,
        "wet_trips": of("late_days_share") * min(of("late_h") / 8.0, 0.5),
        "clock_shift": 0.0,
    }
    return effect.get(code)


def _effect_of_level(left_log: float, of: Callable[[str], float]) -> float | None:
    """What a level that is so much lower costs, from the step on where there is one: before it, it was not so low."""
    if left_log >= 0.0:
        return None
    return (1.0 - float(np.exp(left_log))) * (1.0 - of("step_at_share") if _fell(left_log, of) else 1.0)


def _fell(left_log: float, of: Callable[[str], float]) -> bool:
    """Did the level fall within the log by about so much, from one that was not so low?"""
    return of("level_step") < 0.5 * left_log < of("level_before") and of("level_step_sureness") > _SURE_STEP
