"""What does the demand of an average home look like through the year? A published shape, as plain values."""

from dataclasses import dataclass

from service.core.model.hours import Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DemandShape:
    """Relative power of an average home by month, kind of day and wall-clock hour; only ratios count.

    Attributes:
        by_month_kind_hour: (12, 3, 24) hourly means; kinds of day: 0 Monday to Friday, 1 Saturday, 2 Sunday.
        day_polynomial: coefficients, constant first, of the factor by day of the year (1 to 366).
        source: where the shape was published, for people.
    """

    by_month_kind_hour: Floats
    day_polynomial: tuple[float, ...]
    source: str
