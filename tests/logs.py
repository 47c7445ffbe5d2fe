"""Logs made up for tests: a bell of power by day in UTC, the same each day, and what was to be expected of it."""

from dataclasses import replace

import numpy as np

from service.core.logbook import Ceiling, Expected, Log, Rows, Zone, log_of, zone_of
from service.core.model.hours import Floats, Ints

DAY_S, HOUR_S = 86_400, 3600
FIRST_S = 1_746_057_600  # 1 May 2025 00:00 UTC
CEILING = Ceiling(most_w=800.0, usual_w=90.0)
PEAK_W = 600.0


def utc(days: int = 400) -> Zone:
    """A zone without summer time over the span of the made-up logs."""
    return zone_of("Etc/UTC", 0.0, FIRST_S - DAY_S, FIRST_S + days * DAY_S)


def bell_w(seconds: Ints) -> Floats:
    """Power at each moment: from 6 to 18 o'clock, at noon the most."""
    hour = seconds % DAY_S / HOUR_S
    return PEAK_W * np.maximum(np.sin((hour - 6.0) / 12.0 * np.pi), 0.0)


def season(days: int, share: float = 1.0) -> Expected:
    """What was to be expected over ``days`` days and a day on both sides."""
    begins = FIRST_S - DAY_S + HOUR_S * np.arange((days + 2) * 24)
    hours = share * np.mean([bell_w(begins + at) for at in range(30, HOUR_S, 60)], axis=0)
    return Expected(
        first_s=int(begins[0]),
        hours_w=hours,
        low_w=0.9 * hours,
        high_w=1.1 * hours,
        daylight=(hours > 0.02 * PEAK_W).astype(np.float64),
        day_sd_share=np.full(hours.size, 0.4),
        year_sd_share=0.05,
        month_sd_share=0.03,
        basis="climate",
    )


def power_rows(days: int, step_s: int = 900, share: float = 1.0) -> Rows:
    """Energy of each step of some days, Wh, stamped with its start."""
    at = FIRST_S + step_s * np.arange(days * DAY_S // step_s)
    return Rows(kind="interval", at_s=at, value=share * bell_w(at + step_s // 2) * step_s / HOUR_S, stamp="start")


def counter_rows(days: int, step_s: int = 900, start_wh: float = 50_000.0) -> Rows:
    """The running counter of the same."""
    made = power_rows(days, step_s)
    at = np.concatenate([made.at_s, made.at_s[-1:] + step_s])
    return Rows(kind="counter", at_s=at, value=start_wh + np.concatenate([[0.0], np.cumsum(made.value)]), stamp="start")


def without(rows: Rows, begin_s: int, end_s: int) -> Rows:
    """Rows with those of a stretch taken out."""
    keep = (rows.at_s < begin_s) | (rows.at_s >= end_s)
    return replace(rows, at_s=rows.at_s[keep], value=rows.value[keep])


def log_from(rows: Rows) -> Log:
    """The log of a set."""
    return log_of([(None, rows)], [CEILING], utc())


def notes_of(log: Log) -> dict[str, int]:
    """The notes of a log: code -> count."""
    return {note.code: note.count for note in log.notes}
