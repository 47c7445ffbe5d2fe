"""Is a running set doing what it should: what was logged, what was to be expected, what is missing and why?"""

from service.core.logbook.series import LoggedSeries

__all__ = ["LoggedSeries"]
