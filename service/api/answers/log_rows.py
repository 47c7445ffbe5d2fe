"""Which rows does a request's log hold, and what is said of a time that is none?"""

import numpy as np

from service.api.schemas.log_mistakes import column_of
from service.api.schemas.log_series import EXAMPLE_ROWS, MONTHS, LogSeriesIn, ReadingsIn
from service.api.schemas.mistakes import Mistake, RefusedRequest, shown
from service.api.words import say
from service.core.logbook import Moments, Rows, StampError, moments_of
from service.core.model.hours import Floats

_WH = {"kwh": 1000.0, "wh": 1.0, "w": 1.0}
_MONTH_LENGTH = 7  # 2026-05
_MINUTE_S = 60
_LEAP_TIMES = 100.0  # a counter that leaps by more than so many usual rises was changed, or its unit
_DEFAULT_STAMP = {"power": "middle"}


def rows_of(
    readings: ReadingsIn, pointer: str, time_zone: str, longitude_deg: float
) -> list[tuple[int | None, Rows, Moments]]:
    """The rows of the set, or of each of its inputs with its number.

    Raises:
        RefusedRequest: a time that is none.
    """
    if readings.by_input is None:
        return [(None, *_series(readings, readings, pointer, time_zone, longitude_deg))]
    return [
        (one.input, *_series(one, readings, f"{pointer}/by_input/{at}", time_zone, longitude_deg))
        for at, one in enumerate(readings.by_input)
    ]


def _series(
    series: LogSeriesIn, readings: ReadingsIn, pointer: str, time_zone: str, longitude_deg: float
) -> tuple[Rows, Moments]:
    step_s = None
    columns = series.columns()
    if columns is not None:
        times = columns[0]
        if readings.kind == MONTHS:
            times = [f"{time}-01" if len(time) == _MONTH_LENGTH else time for time in times]
        values = column_of(columns[1])
        where = f"{pointer}/rows"
    else:
        times, step_s = [series.first or ""], (series.step_minutes or 0) * _MINUTE_S
        values, where = column_of(series.values or ()), f"{pointer}/first"
    try:
        given = None if step_s is not None or readings.kind == MONTHS else _given(values, readings.kind)
        moments = moments_of(times, time_zone, longitude_deg, given)
    except StampError as error:
        raise _no_time(times[error.at], f"{where}/{error.at}/0" if step_s is None else where, readings.kind) from None
    seconds = moments.seconds if step_s is None else moments.seconds[0] + step_s * np.arange(values.size)
    return Rows(
        kind=readings.kind,
        at_s=seconds,
        value=values * _WH[readings.unit or "w"],
        stamp=readings.stamp or _DEFAULT_STAMP.get(readings.kind, "start"),
        step_s=step_s,
    ), moments  # fmt: skip


def _given(values: Floats, kind: str) -> Floats:
    """(n,) what the set gave about each row, in any unit: of a counter that is in order, what it rises by."""
    if kind != "counter":
        return values
    rise = np.maximum(np.nan_to_num(np.diff(values, append=values[-1:])), 0.0)
    if not rise.any():
        return rise
    return np.where(rise < _LEAP_TIMES * float(np.median(rise[rise > 0.0])), rise, 0.0)


def _no_time(given: str, pointer: str, kind: str) -> RefusedRequest:
    mistake = Mistake(
        code="wrong_form",
        pointer=pointer,
        given=shown(given),
        problem=say("problems", "mistake.wrong_form"),
        accepted=say("problems", "accepted.form.log_time"),
        example="2026-05" if kind == MONTHS else EXAMPLE_ROWS[0][0],
    )
    return RefusedRequest("invalid_request", (mistake,))
