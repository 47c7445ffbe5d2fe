"""What can make a question meaningless? One base that is never raised itself, a few leaves with their data."""

from typing import ClassVar


class SunsillError(Exception):
    """Base of every error that the core or the tables raise on purpose. Never raised itself.

    A verdict ("does not fit", "never paid back") is a value and no error; an error means that no answer exists.
    """

    code: ClassVar[str] = "error"


class NoClimateError(SunsillError):
    """The place lies outside the embedded climate: at sea, or beyond 57 S to 72 N."""

    code = "no_climate"

    def __init__(self, latitude_deg: float, longitude_deg: float) -> None:
        """Keep the place that was asked for."""
        super().__init__(f"no climate at {latitude_deg}, {longitude_deg}")
        self.latitude_deg = latitude_deg
        self.longitude_deg = longitude_deg


class UnknownAreaError(SunsillError):
    """No card or table is kept under this area code."""

    code = "unknown_area"

    def __init__(self, area: str) -> None:
        """Keep the area that was asked for."""
        super().__init__(f"no such area: {area}")
        self.area = area


class ContradictionError(SunsillError):
    """Two parts of a request cannot both hold, such as an array on an input that the inverter lacks."""

    code = "contradiction"

    def __init__(
        self, pointer: str, problem: str, *, given: object = None, accepted: str = "", example: object = None
    ) -> None:
        """Keep where it stands (RFC 6901), what is wrong in a short phrase, and what would be accepted."""
        super().__init__(f"{pointer}: {problem}")
        self.pointer = pointer
        self.problem = problem
        self.given = given
        self.accepted = accepted
        self.example = example
