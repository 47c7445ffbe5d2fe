"""Did the set give more than it can by what was told of it?"""

from math import log
from types import MappingProxyType

from service.core.logbook.pieces import LogNote

FAR_ABOVE = 1.25  # a set does not give so much more than its facts: they are not those of this set
_SURE_SD = 2.6


def is_more_than_told(ratio: float | None, sd_share: float) -> bool:
    """Is what was logged over what was to be expected beyond its doubt (relative, of the logarithm)?"""
    return ratio is not None and ratio > FAR_ABOVE and log(ratio) > _SURE_SD * sd_share


def more_than_told(ratio: float | None, sd_share: float) -> tuple[LogNote, ...]:
    """What is said then, whatever else is: its rows count, and the facts of the set are in doubt."""
    if ratio is None or not is_more_than_told(ratio, sd_share):
        return ()
    return (LogNote(code="more_than_told", count=1, facts=MappingProxyType({"percent": 100.0 * ratio})),)
