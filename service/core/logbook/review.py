"""Is a running set doing what it should? One answer out of what was logged, what was to be expected and the causes."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import ceil, log
from types import MappingProxyType

import numpy as np

from service.core.logbook.diagnosis import Diagnosis, clipped_steps
from service.core.logbook.expected import BY_CLIMATE, DAY_S, HOUR_S, Expected, sd_share_of
from service.core.logbook.gaps import SET_OFF, Gap, Sorted, sorted_gaps
from service.core.logbook.grid import series_of
from service.core.logbook.input_gaps import InputGaps, input_gaps
from service.core.logbook.log import Log
from service.core.logbook.more_than_told import is_more_than_told
from service.core.logbook.off_time import LostTime, off_time, under_snow, unlogged_time
from service.core.logbook.pieces import LogNote, Pieces
from service.core.logbook.second_year import SecondYear, second_year
from service.core.logbook.series import LoggedSeries
from service.core.logbook.shared_days import read_by_step
from service.core.logbook.snow import Silence, SnowFacts
from service.core.logbook.totals import Totals, projected_year, totals_of
from service.core.logbook.zones import Zone
from service.core.model.band import Band
from service.core.model.hours import Bools

# A shortfall that weather and the doubts of label and model leave to one log in two hundred is called one.
_SHORT_OF_SD = 2.6
_FAR_SD, _FEW_DAYS = 4.5, 45.0
_SEEN_SD = 2.0  # what such a log would show
_LEAST_DAYS, _LEAST_KWH = 2.0, 0.5
# So sure that something is wrong, a log is no proof that nothing is, though it be no alarm.
_NO_PROOF_SHARE = 0.5
# A store gives at one power in the dark, and nothing when it is empty; what it gives came from the panels.
_STEADY_SHARE, _STEADY_ROWS_SHARE, _EMPTY_SHARE, _STORE_MOST = 0.15, 0.5, 0.1, 1.4
# If a shortfall smaller than this could not be seen, the log tells nothing either way.
_BLIND_SHARE = 0.35
_CLEAR_MARK_SHARE, _AS_ITS_HOUSE_SD, _LEFT_SHARE = 0.5, 1.0, 0.2
_SEEN_BY_LEVEL = frozenset({"input_dead", "bypass_section_lost", "dirt_drift", "fast_ageing"})
# A lost input or section takes a sixth at least of what a small set gives all year.
_TAKES_A_PART, _ABOVE_ITS_SEASON = frozenset({"input_dead", "bypass_section_lost"}), 1.1
_MOST_GAPS = 500
_BY_NIGHT_SHARE = 0.03
# More than this in the dark, at no clock that is off by a few hours, is no sun. A clock's hours are a fault of the log.
_NO_SUN_SHARE, _CLOCKS_H = 0.05, (-3, -2, -1, 1, 2, 3)
_SILENT_S = 2.4 * DAY_S  # from the first morning to the third evening
TURNED_CLAMP, WAS_OFF, MORE_THAN_EXPECTED = "turned_clamp", "was_off", "more_than_expected"


class Conclusion(StrEnum):
    """What is said of the set."""

    NOTHING_UNUSUAL = "nothing_unusual"
    SOMETHING_WRONG = "something_wrong"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """A log beside what was to be expected, before causes are looked for.

    Attributes:
        logged_kwh: what the rows hold.
        compared_kwh: that part of it which is compared: without lower bounds and without time in which the set was off.
        expected_kwh: what was to be expected in exactly that time.
        ratio: the one over the other's middle; None where nothing was to be expected.
        sd_share: how far the ratio may lie from 1 with a sound set, relative.
        visible_share: the smallest shortfall that such a log shows.
        days: how many days of expected energy the compared time holds.
        sorted: gaps, and which pieces compare.
        missed_kwh: of all gaps together.
        series: on even steps, of the set and of its inputs; gaps left open.
        clipped: in which steps of it something holds the power down to one value.
        no_sun: lies so much of the energy in the dark that no clock explains it?
        silent: since when the set has given nothing, up to the end of the log; None: it gives.
        store_like: is what it gives in the dark like a store's, at one power until it is empty?
    """

    log: Log
    now: Expected
    season: Expected
    zone: Zone
    logged_kwh: float
    compared_kwh: float
    expected_kwh: Band
    ratio: float | None
    sd_share: float
    visible_share: float
    days: float
    sorted: Sorted
    missed_kwh: Band
    series: LoggedSeries | None
    clipped: Bools
    input_series: tuple[LoggedSeries, ...]
    notes: tuple[LogNote, ...]
    no_sun: bool
    silent: Silence | None
    store_like: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Judged:
    """The conclusion, why, and what the log adds up to.

    ``projected_year_kwh`` is None where the log is none of a set that gives, ``second_year`` where it knows fewer than
    four weeks of both years. ``off``: the time in which the set was off, ``unlogged``: that of which nothing was
    logged; None: less than a day. ``wrong_share``: of the first suspect's log; None: there is no suspect.
    """

    conclusion: Conclusion
    because: str
    totals: Totals
    projected_year_kwh: Band | None
    level: float
    visible_share: float
    second_year: SecondYear | None
    off: LostTime | None = None
    unlogged: LostTime | None = None
    wrong_share: float | None = None


def read_log(log: Log, season: Expected, now: Expected, zone: Zone, most_w: float) -> Reading:
    """Set a log beside what was to be expected.

    Args:
        log: in order.
        season: what the season gives hour by hour.
        now: the same, or what is known better from the weather of the days or from neighbours.
        zone: of the site.
        most_w: what the set gives at most.
    """
    pieces = log.total
    told = sorted_gaps(pieces, season, now) if pieces.energy_wh.size else _nothing_told()
    no_sun = _without_sun(pieces, season)
    if no_sun:
        told = replace(told, gaps=())
    usable = told.usable
    used = pieces.part(usable)
    compared = float(used.energy_wh.sum()) / 1000.0
    expected = now.band(used.begin_s, used.end_s, used.share)
    sd = sd_share_of(expected)
    of_a_day = _usual_day_kwh(now)
    off = _without_off_time(log.inputs, told.gaps)
    own = InputGaps(gaps=(), notes=()) if no_sun else input_gaps(log, told, season, now)
    all_gaps = tuple(sorted((*told.gaps, *own.gaps), key=lambda gap: gap.begin_s))
    series = series_of(pieces, usable & pieces.whole & read_by_step(log), zone, most_w)
    return Reading(
        log=log,
        now=now,
        season=season,
        zone=zone,
        logged_kwh=float(pieces.energy_wh.sum()) / 1000.0,
        compared_kwh=compared,
        expected_kwh=expected,
        ratio=compared / expected.middle if expected.middle else None,
        sd_share=sd,
        visible_share=min(1.0 - float(np.exp(-_SEEN_SD * sd)), 1.0),
        days=(expected.middle or 0.0) / of_a_day if of_a_day > 0 else 0.0,
        sorted=replace(told, gaps=all_gaps),
        missed_kwh=_missed(all_gaps),
        series=series,
        clipped=_clipped(series),
        input_series=tuple(
            one for (number, part), use in zip(log.inputs, off, strict=True)
            if (one := series_of(part, use, zone, most_w, number)) is not None
        ),
        notes=(*log.notes, *own.notes, *_many(all_gaps), *_more_notes(pieces, told, season, no_sun=no_sun)),
        no_sun=no_sun,
        silent=None if no_sun else _silence(pieces, told.gaps),
        store_like=no_sun and _like_a_store(pieces, season),
    )  # fmt: skip


def beside_its_house(reading: Reading, found: Diagnosis) -> Diagnosis:
    """What a diagnosis says where neighbours show that the set gives what it should.

    A level that the whole house has is weather: causes that are seen by level alone lose most of their sureness, and
    vague marks of others are no alarm. Nor does a set lack a part of its panels that gives more than its season.
    """
    bright = reading.ratio is not None and reading.ratio > _ABOVE_ITS_SEASON
    if bright and reading.now.basis in BY_CLIMATE and found.suspects and found.suspects[0].code in _TAKES_A_PART:
        return replace(found, conclusion=_no_alarm(found))
    at_par = (
        reading.now.basis == "peers" and reading.ratio is not None and reading.ratio > 0.0
        and log(reading.ratio) > -_AS_ITS_HOUSE_SD * reading.sd_share
    )  # fmt: skip
    if not at_par:
        return found
    told = [
        replace(one, sureness_share=_LEFT_SHARE * one.sureness_share) if one.code in _SEEN_BY_LEVEL else one
        for one in found.suspects
    ]
    told.sort(key=lambda one: -one.sureness_share)
    clear = bool(told) and told[0].sureness_share >= _CLEAR_MARK_SHARE
    conclusion = found.conclusion if clear else _no_alarm(found)
    return replace(found, suspects=tuple(told), conclusion=conclusion)


def _no_alarm(found: Diagnosis) -> str:
    return found.conclusion if found.conclusion != Conclusion.SOMETHING_WRONG else str(Conclusion.NOTHING_UNUSUAL)


def judged(
    reading: Reading, alarm: bool, promised_kwh: Band, year_sd_share: float, *, input_silent: bool = False,
    input_weak: bool = False,
    whole: Diagnosis | None = None, snow_facts: SnowFacts | None = None,
) -> Judged:  # fmt: skip
    """The conclusion of a log.

    Args:
        reading: the log beside what was to be expected.
        alarm: has a cause been found that is sure enough to say so?
        promised_kwh: what the set was to give in a year.
        year_sd_share: how far one year's light lies from another's.
        input_silent: does one input give nothing while another gives?
        input_weak: or far less than it should beside it?
        whole: what the course of the whole set's log says.
        snow_facts: by which a set that gives nothing in winter may be snowed in; None: not known.
    """
    silent = reading.silent
    snow = silent is not None and snow_facts is not None and snow_facts.may_lie(silent, reading.zone)
    visible = _visible_share(reading, whole)
    plain = _plain_conclusion(reading, input_silent=input_silent, input_weak=input_weak, snow=snow)
    conclusion, because = plain or _conclusion(reading, visible, alarm=alarm)
    off = None if silent is not None else off_time(reading.sorted.gaps, reading.logged_kwh)
    if conclusion is not Conclusion.SOMETHING_WRONG and _was_off(reading, off, snow_facts):
        conclusion, because = Conclusion.SOMETHING_WRONG, WAS_OFF
    pieces = reading.log.total
    faulty = conclusion is Conclusion.SOMETHING_WRONG and because != WAS_OFF
    projected, level = projected_year(promised_kwh, reading.ratio, reading.sd_share, year_sd_share, faulty=faulty)
    totals = totals_of(pieces, reading.sorted.usable, reading.now, reading.zone)
    return Judged(
        conclusion=conclusion,
        because=because,
        totals=totals,
        projected_year_kwh=None if reading.no_sun or (silent is not None and not snow) else projected,
        level=level,
        visible_share=visible,
        second_year=None if reading.no_sun else second_year(totals.days, reading.now.basis, year_sd_share),
        off=off,
        unlogged=unlogged_time(reading.sorted.gaps, reading.logged_kwh),
    )


def _was_off(reading: Reading, off: LostTime | None, snow_facts: SnowFacts | None) -> bool:
    """Is it the first thing to tell that the set was off, and no snow that explains it?"""
    if off is None or not off.stands_out or reading.no_sun or reading.ratio is None:
        return False
    return snow_facts is None or not under_snow(reading.sorted.gaps, snow_facts, reading.zone)


def _visible_share(reading: Reading, whole: Diagnosis | None) -> float:
    """The smallest shortfall that would have shown: in the sum, or on the days that tell the set's level."""
    if whole is None or whole.would_have_seen_share is None or whole.sureness_share > _NO_PROOF_SHARE:
        return reading.visible_share
    return min(reading.visible_share, whole.would_have_seen_share)


def _plain_conclusion(
    reading: Reading, *, input_silent: bool, input_weak: bool, snow: bool
) -> tuple[Conclusion, str] | None:
    """What the rows show without any weighing."""
    if reading.no_sun:
        return Conclusion.CANNOT_TELL, "store_behind_it" if reading.store_like else "not_a_solar_log"
    if snow:
        return Conclusion.CANNOT_TELL, "may_lie_under_snow"
    if reading.silent is not None:
        return Conclusion.SOMETHING_WRONG, "gives_nothing"
    if any(note.code == TURNED_CLAMP for note in reading.notes):
        return Conclusion.SOMETHING_WRONG, TURNED_CLAMP
    if input_silent:
        return Conclusion.SOMETHING_WRONG, "input_gives_nothing"
    return (Conclusion.SOMETHING_WRONG, "input_gives_little") if input_weak else None


def _conclusion(reading: Reading, visible_share: float, *, alarm: bool) -> tuple[Conclusion, str]:
    if alarm:
        return Conclusion.SOMETHING_WRONG, "cause_found"
    expected = reading.expected_kwh.middle or 0.0
    if reading.ratio is None or expected < _LEAST_KWH or reading.days < _LEAST_DAYS:
        return Conclusion.CANNOT_TELL, "too_little_logged"
    # Where the days that tell the level are right, a low sum of a few weeks is their sky, unless it is far below.
    by_their_sky = (
        reading.now.basis in BY_CLIMATE and reading.days < _FEW_DAYS and visible_share < reading.visible_share
    )
    short_of_sd = _FAR_SD if by_their_sky else _SHORT_OF_SD
    if reading.ratio <= 0.0 or log(reading.ratio) < -short_of_sd * reading.sd_share:
        return Conclusion.SOMETHING_WRONG, "less_than_expected"
    if is_more_than_told(reading.ratio, reading.sd_share):
        return Conclusion.CANNOT_TELL, MORE_THAN_EXPECTED
    return _within(reading, visible_share)


def _within(reading: Reading, visible_share: float) -> tuple[Conclusion, str]:
    """What is said of a log that shows nothing wrong: it hangs on what it would have shown."""
    if visible_share > _BLIND_SHARE:
        return Conclusion.CANNOT_TELL, "weather_hides_it"
    within = reading.ratio is not None and log(reading.ratio) > -_SHORT_OF_SD * reading.sd_share
    by_the_sum = reading.visible_share <= _BLIND_SHARE and within
    return Conclusion.NOTHING_UNUSUAL, "within_band" if by_the_sum else "clear_days_are_right"


def _clipped(series: LoggedSeries | None) -> Bools:
    if series is None or series.step_s > HOUR_S:
        return np.zeros(0, dtype=np.bool_)
    return clipped_steps(series.energy_wh * (HOUR_S / series.step_s), series.step_s)


def _usual_day_kwh(now: Expected) -> float:
    return float(now.hours_w.mean()) * 24.0 / 1000.0 if now.hours_w.size else 0.0


def _nothing_told() -> Sorted:
    return Sorted(gaps=(), usable=np.empty(0, dtype=np.bool_), nights=0, lost_rows=0, lost_rows_kwh=0.0)


def _missed(gaps: Sequence[Gap]) -> Band:
    """Of gaps of different days the middles add up, their doubts as independent ones."""
    middle = sum(gap.missed_kwh.middle or 0.0 for gap in gaps)
    below = sum(((gap.missed_kwh.middle or 0.0) - (gap.missed_kwh.cautious or 0.0)) ** 2 for gap in gaps) ** 0.5
    above = sum(((gap.missed_kwh.hopeful or 0.0) - (gap.missed_kwh.middle or 0.0)) ** 2 for gap in gaps) ** 0.5
    return Band(max(middle - below, 0.0), middle, middle + above)


def _without_off_time(inputs: Sequence[tuple[int, Pieces]], gaps: Sequence[Gap]) -> list[Bools]:
    """Of each input's pieces those that lie outside the time in which the whole set was off."""
    found = []
    for _, pieces in inputs:
        use = ~pieces.at_least
        for gap in gaps:
            use &= (pieces.end_s <= gap.begin_s) | (pieces.begin_s >= gap.end_s)
        found.append(use)
    return found


def _silence(pieces: Pieces, gaps: Sequence[Gap]) -> Silence | None:
    """The end of the log, if the set gives nothing in it for days on which something would have shown."""
    given = np.flatnonzero(pieces.energy_wh > 0.0)
    since = int(pieces.end_s[given[-1]]) if given.size else 0
    off = [gap for gap in gaps if gap.kind == SET_OFF and gap.begin_s >= since - HOUR_S]
    if not off or off[-1].end_s - off[0].begin_s < _SILENT_S:
        return None
    return Silence(since_s=off[0].begin_s, days=ceil((off[-1].end_s - off[0].begin_s) / DAY_S))


def _dark_rows(pieces: Pieces, season: Expected, fast_h: int = 0) -> Bools:
    """Pieces of some hours at most in which the sun is down, were the log's clock so many hours fast."""
    begin, end = pieces.begin_s - fast_h * HOUR_S, pieces.end_s - fast_h * HOUR_S
    return np.asarray((pieces.seconds <= DAY_S // 4) & (season.day_course.between(begin, end) <= 0.0))


def _dark_share(pieces: Pieces, dark: Bools) -> float:
    total = float(pieces.energy_wh.sum())
    return float(pieces.energy_wh[dark].sum()) / total if total > 0 else 0.0


def _like_a_store(pieces: Pieces, season: Expected) -> bool:
    """Does the set give at one power in the dark and nothing at other times, and no more in all than the sun brings?"""
    dark = _dark_rows(pieces, season) & (pieces.seconds <= HOUR_S)
    power = pieces.energy_wh[dark] * HOUR_S / pieces.seconds[dark]
    giving = power > 0.0
    if not giving.any():
        return False
    usual = float(np.median(power[giving]))
    steady = float(np.mean(np.abs(power[giving] - usual) <= _STEADY_SHARE * usual))
    expected = float(season.course.between(pieces.begin_s, pieces.end_s).sum())
    within = float(pieces.energy_wh.sum()) <= _STORE_MOST * expected
    return steady >= _STEADY_ROWS_SHARE and float(np.mean(~giving)) >= _EMPTY_SHARE and within


def _without_sun(pieces: Pieces, season: Expected) -> bool:
    """Does more of the energy lie in the dark than a few per cent, whatever hours the clock is off?"""
    if _dark_share(pieces, _dark_rows(pieces, season)) <= _NO_SUN_SHARE:
        return False
    return all(_dark_share(pieces, _dark_rows(pieces, season, hours)) > _NO_SUN_SHARE for hours in _CLOCKS_H)


def _many(gaps: Sequence[Gap]) -> list[LogNote]:
    return [LogNote(code="more_gaps", count=len(gaps) - _MOST_GAPS)] if len(gaps) > _MOST_GAPS else []


def _more_notes(pieces: Pieces, told: Sorted, season: Expected, *, no_sun: bool) -> list[LogNote]:
    """What gaps and the sun add to what the rows told."""
    notes = []
    if told.lost_rows:
        facts = {"kwh": told.lost_rows_kwh}
        notes.append(LogNote(code="lost_rows", count=told.lost_rows, facts=MappingProxyType(facts)))
    if told.nights:
        notes.append(LogNote(code="nights_left_out", count=told.nights))
    dark = _dark_rows(pieces, season)
    by_night = _dark_share(pieces, dark)
    if by_night > _BY_NIGHT_SHARE:
        count = int(np.count_nonzero(dark & (pieces.energy_wh > 0.0)))
        facts = {"percent": 100.0 * by_night}
        of_no_sun = "store_behind_it" if no_sun and _like_a_store(pieces, season) else "not_a_solar_log"
        codes = ("by_night", of_no_sun) if no_sun else ("by_night",)
        notes += [LogNote(code=code, count=count, facts=MappingProxyType(facts)) for code in codes]
    return notes
