"""What are handlers given? The day, the tables, the caches: made in ``app``, passed as a value."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime


def today() -> date:
    """The day in UTC, by which dated rules and prices go where nobody says one. The one place that reads the clock."""
    return datetime.now(UTC).date()


@dataclass(frozen=True, slots=True, kw_only=True)
class Deps:
    """Everything that an answer may draw on beside the request."""

    service_version: str
    data_version: str
    today: Callable[[], date]
