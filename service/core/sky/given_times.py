"""When does each step of a caller's weather begin, and what stands in it? The series as sent becomes even steps."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.hours import Floats, Ints
from service.core.model.weather import GivenWeather

HOUR_MINUTES = 60
MOST_STEPS = 300_000  # after what time stamps leave out is opened: seven months of minutes
_EXAMPLE = "2025-03-01T00:00:00+01:00"
_COLUMNS = ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2", "air_c", "wind_m_per_s")


def given_weather(series: Mapping[str, Any], time_zone: str) -> GivenWeather:
    """The series of a request as even steps, each from its own beginning.

    Args:
        series: as sent: ``first`` and ``step_minutes``, or ``times``; ``stamp``; the columns. Shapes and bounds of
            single fields have been checked, and that all columns are as long as the times.
        time_zone: IANA name, for a ``first`` without an offset: from there on steps follow evenly, whatever summer
            time does. Each of ``times`` has its own offset.

    A stamp is the step's start, middle or end; with ``times`` the steps are as long as the shortest distance between
    two of them, and what lies between two that are farther apart is missing.

    Raises:
        ContradictionError: times that do not rise, or are no even steps; steps that do not make up an hour.
    """
    times = series.get("times")
    if times is None:
        first_s, step = _seconds(series["first"], at_series("first"), time_zone), int(series["step_minutes"])
        where = None
    else:
        seconds = [_seconds(time, at_series(f"times/{at}"), None) for at, time in enumerate(times)]
        first_s, step, where = _even(np.array(seconds, dtype=np.int64), times)
    if HOUR_MINUTES % step:
        pointer = at_series("step_minutes") if times is None else at_series("times")
        raise ContradictionError(
            pointer, "does not make up an hour", given=step,
            accepted="steps of 1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30 or 60 minutes",
            example=HOUR_MINUTES if times is None else [_EXAMPLE, "2025-03-01T01:00:00+01:00"],
        )  # fmt: skip
    shift_s = {"start": 0, "middle": step * 30, "end": step * 60}[series["stamp"]]
    begins = round((first_s - shift_s) / 60) * 60

    def column(values: Sequence[float | None] | None) -> Floats | None:
        if values is None:
            return None
        known = np.array([np.nan if value is None else value for value in values], dtype=np.float64)
        if where is None:
            return known
        opened = np.full(int(where[-1]) + 1, np.nan)
        opened[where] = known
        return opened

    ghi, dni, dhi, air, wind = (column(series.get(name)) for name in _COLUMNS)
    # A column that may be left out and nowhere tells a value is left out.
    dni, dhi, air, wind = (None if one is None or np.isnan(one).all() else one for one in (dni, dhi, air, wind))
    planes = series.get("plane_w_per_m2")
    return GivenWeather(
        begins_utc=np.datetime64(begins, "s"),
        step_minutes=step,
        ghi_w_per_m2=ghi,
        dni_w_per_m2=dni,
        dhi_w_per_m2=dhi,
        plane_w_per_m2=None if planes is None else tuple(_known(column(plane)) for plane in planes),
        air_c=air,
        wind_m_per_s=wind,
        rows=where,
    )


def at_series(name: str) -> str:
    """The pointer of a part of the series."""
    return f"/weather/series/{name}"


def _known(column: Floats | None) -> Floats:
    return np.empty(0) if column is None else column


def _seconds(text: str, pointer: str, time_zone: str | None) -> int:
    """Seconds since 1970 of a time as text."""
    try:
        moment = datetime.fromisoformat(text.upper())
    except ValueError:
        raise ContradictionError(
            pointer, "is no time", given=text, accepted="a date and time of RFC 3339", example=_EXAMPLE
        ) from None
    if moment.tzinfo is None:
        if time_zone is None:
            raise ContradictionError(
                pointer, "has no offset, so that an hour of autumn could be either of two", given=text,
                accepted="an instant of RFC 3339, with Z or an offset", example=_EXAMPLE,
            )  # fmt: skip
        moment = moment.replace(tzinfo=ZoneInfo(time_zone))
    return round(moment.astimezone(UTC).timestamp())


def _even(seconds: Ints, times: Sequence[str]) -> tuple[int, int, Ints]:
    """The first moment, the step in minutes, and at which step each time stands."""
    if seconds.size < 2:
        raise ContradictionError(
            at_series("times"), "tells no step", given=list(times), accepted="at least two times",
            example=[_EXAMPLE, "2025-03-01T01:00:00+01:00"],
        )  # fmt: skip
    apart = np.diff(seconds)
    if (apart <= 0).any():
        at = int(np.flatnonzero(apart <= 0)[0]) + 1
        raise ContradictionError(
            at_series(f"times/{at}"), "is not after the one before", given=times[at],
            accepted=f"a time after {times[at - 1]}", example=_iso(int(seconds[at - 1]) + 3600),
        )  # fmt: skip
    step_s = int(apart.min())
    off = np.flatnonzero((seconds - seconds[0]) % step_s)
    if off.size or step_s % 60:
        at = int(off[0]) if off.size else 1
        near = int(seconds[0]) + round((int(seconds[at]) - int(seconds[0])) / step_s) * step_s
        raise ContradictionError(
            at_series(f"times/{at}"), f"is no whole number of steps of {step_s / 60:g} minutes after the first",
            given=times[at], accepted="even steps of whole minutes; single ones may be missing",
            example=_iso(near // 60 * 60),
        )  # fmt: skip
    where = (seconds - seconds[0]) // step_s
    if where[-1] >= MOST_STEPS:
        at = int(np.argmax(apart)) + 1
        raise ContradictionError(
            at_series(f"times/{at}"), "is too long after the one before", given=times[at],
            accepted="the time before and after the gap in two requests", example=_iso(int(seconds[at - 1]) + step_s),
        )  # fmt: skip
    return int(seconds[0]), step_s // 60, where


def _iso(seconds: int) -> str:
    return datetime.fromtimestamp(seconds, UTC).isoformat().replace("+00:00", "Z")
