"""Is it doing what it should?"""

from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import cached_property
from zoneinfo import ZoneInfo

import numpy as np

from service.api.answers.log_rows import rows_of
from service.api.answers.question import Question
from service.api.deps import Deps
from service.api.schemas.log_csv import read_csv
from service.api.schemas.log_json import read_json
from service.api.schemas.log_series import ReadingsIn
from service.api.schemas.log_suspects import SuspectOut, YearLost
from service.api.schemas.logbook import LogbookIn, PeerIn
from service.api.schemas.logbook_out import LogbookAnswerOut, LogbookOut
from service.api.schemas.pause import no_garbage_looked_for
from service.core.logbook import (
    Ceiling,
    Conclusion,
    Course,
    Diagnosis,
    Expected,
    InputShares,
    Log,
    LoggedSeries,
    LogNote,
    LostTime,
    Moments,
    Neighbour,
    Reading,
    SharedDays,
    SilentInput,
    SnowFacts,
    Suspect,
    TypicalYear,
    WeakInput,
    Witnesses,
    Zone,
    beside_its_house,
    from_climate,
    from_neighbours,
    from_weather,
    hours_of_span,
    input_shares,
    judged,
    log_of,
    read_log,
    reference_rows,
    shared_days,
    silent_inputs,
    suspects,
    weak_inputs,
    witnesses,
    zone_of,
)
from service.core.logbook.clock_hours import clock_off_h
from service.core.logbook.diagnosis import turned_planes
from service.core.logbook.expected import HOUR_S
from service.core.logbook.more_than_told import more_than_told
from service.core.logbook.review import MORE_THAN_EXPECTED, WAS_OFF
from service.core.model.facts import Setup
from service.core.model.hours import Floats, Ints
from service.core.sky.given_times import given_weather

YEAR_H = 8760.0
CLOCK_SET_RIGHT = "clock_set_right"
# How far a day's energy lies from what hours of a series make of it: a sensor beside the set sees its clouds, one some
# kilometres away others. Judgement; nobody said which it is.
_DAY_BY_WEATHER_SD = 0.15
_SPAN_FLOOR = (0, 86_400)


def logbook_review(body: bytes, deps: Deps) -> LogbookAnswerOut:
    """The answer of /v1/logbook/review."""
    with no_garbage_looked_for():
        return reviewed(read_json(body), deps)


def logbook_review_csv(body: bytes, deps: Deps) -> LogbookAnswerOut:
    """The same of a table."""
    with no_garbage_looked_for():
        return reviewed(read_csv(body), deps)


def reviewed(request: LogbookIn, deps: Deps) -> LogbookAnswerOut:
    """The answer to a request that was read.

    Raises:
        RefusedRequest, ContradictionError, NoClimateError: there is no answer.
    """
    question = Question.of(request, deps)
    plain = question
    if question.weather is not None:
        plain = Question.of(request.model_copy(update={"weather": None}), deps)
    set_ = _Set.of(plain)
    log, zone = _log(request.readings, "/readings", set_)
    begins = _hours(log, set_)
    season = set_.season(begins)
    now = _now(request, question, set_, season, begins, deps)
    reading = read_log(log, season, now, zone, set_.most_w)
    days = _shared_days(reading, set_)
    found = _asked(reading, days, request, question, set_, deps)
    silent = () if reading.no_sun else silent_inputs(log.inputs, _rated_w(set_), zone)
    weak = _weak(days, silent)
    named = tuple(one for one in weak if one.code is not None)
    whole = found.found.get(None)
    result = judged(reading, found.alarm, plain.energy.year_kwh, season.year_sd_share, input_silent=bool(silent),
                    input_weak=bool(named), whole=whole, snow_facts=set_.snow())  # fmt: skip
    told = _told(silent, named, found, plain, log)
    if result.because == WAS_OFF and result.off is not None:
        told = [_off(result.off, zone, plain), *told]
    if (ahead_h := _clock_ahead_h(log)) is not None:
        told = [_clock(ahead_h), *(one for one in told if one.code != "clock_shift")]
        result = replace(result, conclusion=Conclusion.SOMETHING_WRONG, because="cause_found")
    if told:
        first = told[0]
        result = replace(result, wrong_share=found.wrong_share(first.code, first.input, first.sureness_share))
    more = () if result.because == MORE_THAN_EXPECTED else more_than_told(reading.ratio, reading.sd_share)
    reading = replace(reading, notes=(*reading.notes, *(one.note() for one in weak if one.code is None), *more))
    return LogbookAnswerOut(
        logbook=LogbookOut.of(reading, result, told, whole, plain.energy.year_kwh),
        **question.beside(question.chosen_cautions()),
    )


def _asked(
    reading: Reading, days: SharedDays | None, request: LogbookIn, question: Question, set_: "_Set", deps: Deps
) -> Witnesses:
    """What the log of the set says of causes, and those of its inputs where they were logged apart."""
    if reading.no_sun:
        return Witnesses(found={})
    weather = None
    if request.weather is not None and request.weather.series is not None:
        weather = given_weather(question.given["weather"]["series"], set_.time_zone)
    setup, climate = set_.question.setup, set_.question.place.climate
    fed = {array.input for array in setup.arrays}

    def ask(series: LoggedSeries, excluded: Collection[str], tries: int) -> Diagnosis:
        found = suspects(series, setup, climate, deps.cause_weights, weather, excluded=excluded, tries=tries)
        return beside_its_house(reading, found)

    return witnesses(reading.series, [one for one in reading.input_series if one.input in fed], days, ask)


def _rated_w(set_: "_Set") -> dict[int, float]:
    """Rated power on each input that has panels."""
    rated: dict[int, float] = {}
    for array in set_.question.setup.arrays:
        rated[array.input] = rated.get(array.input, 0.0) + array.count * array.panel.rated_power_w
    return rated


def _clock_ahead_h(log: Log) -> int | None:
    """By how many hours the log's clock was ahead, where it was set right before all else."""
    told = (note.facts["fast_by_h"] for note in log.notes if note.code == CLOCK_SET_RIGHT)
    return next((hours for hours in told if isinstance(hours, int)), None)


def _clock(ahead_h: int) -> SuspectOut:
    """A clock that is off by hours: what it hides is nothing, once it is set right."""
    evidence = {"fast_by_h": float(ahead_h)}
    suspect = Suspect(code="clock_shift", sureness_share=0.99, effect_share=0.0, evidence=evidence)
    return SuspectOut.of(suspect, None, 0.0, None)


def _off(off: LostTime, zone: Zone, plain: Question) -> SuspectOut:
    """The time in which the set was off, as the first thing to look at."""
    account, year, tariff = plain.account(), plain.energy.year_kwh.middle or 0.0, plain.setup.tariff
    saving = None if account is None else account.saving_first_year.middle
    worth = None
    if saving is not None and tariff is not None and year > 0:
        worth = (off.kwh * saving / year, tariff.currency)
    return SuspectOut.of_off_time(off, ZoneInfo(zone.name), worth)


def _shared_days(reading: Reading, set_: "_Set") -> SharedDays | None:
    """What the inputs gave beside each other; None where fewer than two with panels were logged."""
    if reading.no_sun or not reading.log.inputs:
        return None
    panels: dict[int, int] = {}
    for array in set_.question.setup.arrays:
        panels[array.input] = panels.get(array.input, 0) + array.count
    return shared_days(reading.log, reading.sorted.usable, reading.now, panels, reading.zone)


def _weak(days: SharedDays | None, silent: tuple[SilentInput, ...]) -> tuple[WeakInput, ...]:
    """Inputs that give far less than they should beside another, without those that give nothing at all."""
    told = {one.number for one in silent}
    return () if days is None else tuple(one for one in weak_inputs(days) if one.number not in told)


def _told(
    silent: tuple[SilentInput, ...], weak: tuple[WeakInput, ...], found: Witnesses, plain: Question, log: Log
) -> list[SuspectOut]:
    """All suspects, those that need no weighing first; of a cause that several logs show the surest."""
    first: dict[str, tuple[Suspect, int | None]] = {}
    for one, number in found.suspects():
        first.setdefault(one.code, (one, number))
    year = plain.energy.year_kwh.middle or 0.0
    account = plain.account() if first or silent or weak else None
    saving = None if account is None else account.saving_first_year.middle
    per_kwh = saving / year if saving is not None and year > 0 else None
    if silent or weak:
        first.pop("input_dead", None)
    if weak:
        first.pop("bypass_section_lost", None)
    by_inputs = [SuspectOut.of_silent(one, year, per_kwh) for one in silent]
    by_inputs += [SuspectOut.of_weak(one, year, per_kwh) for one in weak]
    days = _days_of_the_year(log.total.begin_s)
    return by_inputs + [
        SuspectOut.of(one, number, year, per_kwh, _by_the_chain(one, plain, days) if number is None else None)
        for one, number in first.values()
    ]


def _by_the_chain(one: Suspect, plain: Question, logged_days: Ints) -> YearLost | None:
    """What the set's year as it was found is short of the year as stated; None of causes that change no fact of it."""
    found = _as_found(one, plain.setup)
    if found is None:
        return None
    other = plain.instead(found, plain.assumptions)
    kwh = (plain.energy.year_kwh.middle or 0.0) - (other.energy.year_kwh.middle or 0.0)
    accounts = [one.account() for one in (plain, other)]
    savings = [one.saving_first_year.middle for one in accounts if one is not None]
    known = [saving for saving in savings if saving is not None]
    worth = known[0] - known[1] if len(known) == len(accounts) else None
    if one.code == "limit_lower_than_stated":  # what is at the limit shows in the log itself
        return YearLost(kwh=max(kwh, 0.0), worth=None if worth is None else max(worth, 0.0))
    stated_w, found_w = (one.energy.ac_w.reshape(365, 24)[logged_days].sum() for one in (plain, other))
    return YearLost(kwh=kwh, worth=worth, log_share=float(1.0 - found_w / stated_w) if stated_w > 0.0 else None)


def _as_found(one: Suspect, setup: Setup) -> Setup | None:
    """The set with the limit, or in the planes, that the log speaks for."""
    if one.code == "limit_lower_than_stated" and (found_w := one.evidence.get("flat_top_w") or 0.0) > 0.0:
        inverter = setup.inverter
        return replace(setup, inverter=replace(inverter, set_limit_w=min(found_w, inverter.set_limit_w)))
    if one.code == "plane_differs" and "tilt_by_deg" in one.evidence:
        planes = turned_planes(setup.arrays, one.evidence["tilt_by_deg"], one.evidence["azimuth_by_deg"])
        arrays = zip(setup.arrays, planes, strict=True)
        return replace(setup, arrays=tuple(replace(array, plane=plane) for array, plane in arrays))
    return None


def _days_of_the_year(begins_s: Ints) -> Ints:
    """Days of which there are rows, counted from 0; 31 December of a leap year is the 365th too."""
    days = np.unique(begins_s.astype("datetime64[s]").astype("datetime64[D]"))
    return np.unique(np.minimum((days - days.astype("datetime64[Y]")).astype(np.int64), 364))


@dataclass(frozen=True)
class _Set:
    """A set of which there is a log, with its typical year."""

    question: Question
    typical: TypicalYear
    time_zone: str
    longitude_deg: float
    most_w: float

    @classmethod
    def of(cls, question: Question) -> "_Set":
        """From a question that rests on the climate."""
        setup, energy = question.setup, question.energy
        zone, longitude = setup.site.time_zone, setup.site.longitude_deg
        other = energy.other_light
        if other is None:
            raise ValueError("an energy year of the chain has its other light")
        kept = None
        if energy.lost_kwh["export_limit"] > 0.0:
            free = other.ac_and_clipped_w(1.0)[0]
            kept = np.divide(energy.ac_w, free, out=np.ones_like(free), where=free > 0.0)
        offset_s = zone_of(zone, longitude, *_SPAN_FLOOR).standard_offset_s
        typical = TypicalYear(other_light=other.evenly(), kept_share=kept, standard_offset_s=offset_s)
        return cls(question, typical, zone, longitude, setup.inverter.ac_power_w)

    @cached_property
    def days_wh(self) -> tuple[Floats, Floats, Floats]:
        """(365,) each: what the season of each day of a year gives, a cloudless day, and the dullest one."""
        usual = self.typical.usual_days_wh()
        return usual, self.typical.clear_days_wh(), usual * self.typical.dullest_share(1)

    def snow(self) -> SnowFacts:
        """What tells whether snow may lie on it."""
        tilts = [array.plane.tilt_deg for array in self.question.setup.arrays]
        air_c = tuple(float(one) for one in self.question.place.climate.air_c)
        return SnowFacts(air_c=air_c, least_tilt_deg=min(tilts))

    def shares(self) -> InputShares:
        """What each input with panels gives, hour by hour."""
        setup = self.question.setup
        numbers = [array.input for array in setup.arrays]
        return input_shares(numbers, self.question.energy.dc_w, self.typical.standard_offset_s)

    def season(self, begins: Ints) -> Expected:
        """What the season gives in each of the hours ``begins``."""
        return from_climate(self.typical, begins, self.question.energy.spread)


def _log(readings: ReadingsIn, pointer: str, set_: _Set) -> tuple[Log, Zone]:
    parts = rows_of(readings, pointer, set_.time_zone, set_.longitude_deg)
    seconds = np.concatenate([rows.at_s for _, rows, _ in parts])
    zone = zone_of(set_.time_zone, set_.longitude_deg, int(seconds.min()), int(seconds.max()))
    usual_w = (set_.question.energy.year_kwh.middle or 0.0) * 1000.0 / YEAR_H / len(parts)
    usual, clear, dullest = (one / len(parts) for one in set_.days_wh)
    ceiling = Ceiling(
        most_w=set_.most_w, usual_w=usual_w, usual_days_wh=usual, clear_days_wh=clear, dullest_days_wh=dullest
    )
    shares = None if readings.by_input is None else set_.shares()
    log = log_of([(number, rows) for number, rows, _ in parts], [ceiling] * len(parts), zone, shares)
    notes = _of_the_clock([one for *_, one in parts])
    ahead_h = clock_off_h(log.total, set_.typical.hours_w(), set_.typical.standard_offset_s)
    if ahead_h:
        right = [(number, replace(rows, at_s=rows.at_s - ahead_h * HOUR_S)) for number, rows, _ in parts]
        log = log_of(right, [ceiling] * len(parts), zone, shares)
        notes.append(LogNote(code=CLOCK_SET_RIGHT, count=seconds.size, facts={"fast_by_h": ahead_h}))
    return replace(log, notes=(*notes, *log.notes)), zone


def _of_the_clock(moments: list[Moments]) -> list[LogNote]:
    counts = {
        "wall_clock": sum(one.without_offset for one in moments if not one.keeps_standard_time),
        "standard_time": sum(one.without_offset for one in moments if one.keeps_standard_time),
        "hour_twice": sum(one.twice for one in moments if not one.keeps_standard_time),
    }
    return [LogNote(code=code, count=count) for code, count in counts.items() if count]


def _hours(log: Log, set_: _Set) -> Ints:
    pieces = log.total
    ends = (int(pieces.begin_s[0]), int(pieces.end_s[-1])) if pieces.energy_wh.size else _SPAN_FLOOR
    return hours_of_span(*ends, set_.typical.standard_offset_s)


def _now(
    request: LogbookIn, question: Question, set_: _Set, season: Expected, begins: Ints, deps: Deps
) -> Expected:  # fmt: skip
    """What is known best of those days: the neighbours first, then given weather, then the climate."""
    if request.peers:
        neighbours = [_neighbour(peer, at, request, set_, begins, deps) for at, peer in enumerate(request.peers)]
        found = from_neighbours(season, neighbours)
        if found is not None:
            return found
    if question.weather is not None:
        hours, known = _weather_hours(question, begins, set_.typical.standard_offset_s)
        if known.any():
            return from_weather(season, hours, known, question.energy.spread, _DAY_BY_WEATHER_SD)
    return season


def _neighbour(peer: PeerIn, at: int, request: LogbookIn, own: _Set, begins: Ints, deps: Deps) -> Neighbour:
    changed = {"weather": None, "peers": None, "arrays": peer.arrays or request.arrays,
               "inverter": peer.inverter or request.inverter}  # fmt: skip
    same = peer.arrays is None and peer.inverter is None
    set_ = own if same else _Set.of(Question.of(request.model_copy(update=changed), deps))
    log, zone = _log(peer.readings, f"/peers/{at}/readings", set_)
    season = set_.season(begins)
    reading: Reading = read_log(_within(log, begins), season, season, zone, set_.most_w)
    return Neighbour(pieces=reading.log.total, usable=reading.sorted.usable, season=season)


def _within(log: Log, begins: Ints) -> Log:
    """The part of a neighbour's log that lies in the same span."""
    pieces = log.total
    inside = (pieces.begin_s >= begins[0]) & (pieces.end_s <= begins[-1] + HOUR_S)
    return Log(total=pieces.part(inside), inputs=(), notes=())


def _weather_hours(question: Question, begins: Ints, standard_offset_s: int) -> tuple[Floats, np.ndarray]:
    """A.c. power of each hour by the given weather, and which hours that tells of."""
    weather, other = question.weather, question.energy.other_light
    if weather is None or other is None:
        return np.zeros(begins.size), np.zeros(begins.size, dtype=np.bool_)
    hours = other.ac_and_clipped_w(1.0)[0] / max(other.up_share, 1e-9)
    first, last = (int(np.datetime64(text.rstrip("Z"), "s").astype(np.int64)) for text in (weather.from_utc,
                                                                                        weather.to_utc))  # fmt: skip
    known = (begins >= first) & (begins + HOUR_S <= last)
    if weather.whole_year:
        return hours[reference_rows(begins, standard_offset_s)], known
    course = Course.of_steps(int(weather.sky.calendar.utc[0].astype(np.int64)), HOUR_S, hours)
    return course.between(begins, begins + HOUR_S), known
