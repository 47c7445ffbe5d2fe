"""How are days and moments of a log written?"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np

_EPOCH = date(1970, 1, 1)


def day_text(day: int) -> str:
    """A day that is counted from 1 January 1970."""
    return (_EPOCH + timedelta(days=day)).isoformat()


def told_time(second: int, zone: ZoneInfo) -> str:
    """A moment on the wall clock of the site, with its offset."""
    return (datetime(1970, 1, 1, tzinfo=UTC) + timedelta(seconds=int(np.int64(second)))).astimezone(zone).isoformat()
