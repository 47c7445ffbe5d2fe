"""Is a running set doing what it should: what was logged, what was to be expected, what is missing and why?"""

from service.core.logbook.diagnosis import (
    Diagnosis,
    SharedDays,
    SilentInput,
    Suspect,
    WeakInput,
    silent_inputs,
    suspects,
    weak_inputs,
)
from service.core.logbook.expected import (
    Expected,
    TypicalYear,
    from_climate,
    from_weather,
    hours_of_span,
    reference_rows,
)
from service.core.logbook.gaps import Gap
from service.core.logbook.inputs import InputShares, input_shares
from service.core.logbook.limits import Ceiling
from service.core.logbook.log import Log, log_of
from service.core.logbook.neighbours import Neighbour, from_neighbours
from service.core.logbook.off_time import LostTime
from service.core.logbook.pieces import Course, LogNote, Pieces
from service.core.logbook.review import Conclusion, Judged, Reading, beside_its_house, judged, read_log
from service.core.logbook.rows import Rows
from service.core.logbook.second_year import SecondYear, second_year
from service.core.logbook.series import LoggedSeries
from service.core.logbook.shared_days import shared_days
from service.core.logbook.snow import Silence, SnowFacts
from service.core.logbook.stamps import Moments, StampError, moments_of
from service.core.logbook.totals import SpanTotal, Totals
from service.core.logbook.witnesses import Witnesses, witnesses
from service.core.logbook.zones import Zone, zone_of

__all__ = [
    "Ceiling",
    "Conclusion",
    "Course",
    "Diagnosis",
    "Expected",
    "Gap",
    "InputShares",
    "Judged",
    "Log",
    "LogNote",
    "LoggedSeries",
    "LostTime",
    "Moments",
    "Neighbour",
    "Pieces",
    "Reading",
    "Rows",
    "SecondYear",
    "SharedDays",
    "Silence",
    "SilentInput",
    "SnowFacts",
    "SpanTotal",
    "StampError",
    "Suspect",
    "Totals",
    "TypicalYear",
    "WeakInput",
    "Witnesses",
    "Zone",
    "beside_its_house",
    "from_climate",
    "from_neighbours",
    "from_weather",
    "hours_of_span",
    "input_shares",
    "judged",
    "log_of",
    "moments_of",
    "read_log",
    "reference_rows",
    "second_year",
    "shared_days",
    "silent_inputs",
    "suspects",
    "weak_inputs",
    "witnesses",
    "zone_of",
]
