"""How are the rows of a log written in a request?"""

from collections.abc import Sequence
from typing import Annotated, Any

from pydantic import ConfigDict, Field, PrivateAttr

from service.api import fields as f
from service.api.schemas.base import In
from service.core.model.hours import Floats

MOST_ROWS = 110_000
MOST_INPUTS = 8
LARGEST_READING = 1e9
MONTHS = "month"  # the kind whose rows name months

_BOUNDS = {"minimum": -LARGEST_READING, "maximum": LARGEST_READING}
_ROW: dict[str, Any] = {
    "type": "array",
    "minItems": 2,
    "maxItems": 2,
    "items": {"anyOf": [{"type": "string", "maxLength": 40}, {"type": "number", **_BOUNDS}, {"type": "null"}]},
}
EXAMPLE_ROWS: list[Any] = [["2026-05-01T10:00:00+02:00", 412.3], ["2026-05-01T11:00:00+02:00", 412.61]]


class LogSeriesIn(In):
    """The rows of a log; or ``first``, ``step_minutes`` and ``values``."""

    _columns: tuple[Sequence[Any], Sequence[Any] | Floats] | None = PrivateAttr(default=None)

    rows: (
        Annotated[
            list[Any],
            Field(
                min_length=1,
                max_length=MOST_ROWS,
                description="Pairs of a time and a value, in any order; the value null where a row has none. A time is "
                "an instant of RFC 3339, or without an offset the site's wall-clock time; a date alone is its "
                "midnight; of months a year and a month.",
                examples=[EXAMPLE_ROWS],
                json_schema_extra={"items": _ROW},
            ),
        ]
        | None
    ) = None
    first: f.FirstStamp | None = None
    step_minutes: f.LogStepMinutes | None = None
    values: (
        Annotated[
            list[Any],
            Field(
                min_length=1,
                max_length=MOST_ROWS,
                description="The values of even steps, null where one is missing.",
                examples=[[212, 268, None]],
                json_schema_extra={"items": {"type": ["number", "null"], **_BOUNDS}},
            ),
        ]
        | None
    ) = None

    def columns(self) -> tuple[Sequence[Any], Sequence[Any] | Floats] | None:
        """Times and values of rows that are pairs, else None; taken apart once."""
        if self._columns is None and self.rows and set(map(type, self.rows)) == {list}:
            lengths = set(map(len, self.rows))
            if lengths == {2}:
                times, values = zip(*self.rows, strict=True)
                self._columns = (times, values)
        return self._columns

    def hold(self, times: Sequence[Any], values: Floats) -> None:
        """Take these columns, which were looked at already, for those of the rows."""
        self._columns = (times, values)


class InputLogIn(LogSeriesIn):
    """The log of one input of the inverter."""

    input: f.InputNumber


class ReadingsIn(LogSeriesIn):
    """A log: of the whole set, or in ``by_input`` of each of its inputs."""

    model_config = ConfigDict(
        json_schema_extra={
            "oneOf": [
                {"required": ["rows"]},
                {"required": ["first", "step_minutes", "values"]},
                {"required": ["by_input"]},
            ]
        }
    )

    kind: f.LogKind = Field(
        description="counter: what a running counter shows, which may be set back. interval: energy of each interval. "
        "power: power at moments. month: energy of whole months, as noted by hand."
    )
    unit: f.LogUnit | None = Field(default=None, description="Of power w, and need not be said; of all else kwh or wh.")
    stamp: f.Stamp | None = Field(
        default=None,
        description="Which moment of its interval a time names; start where nobody says. A counter is read at the "
        "moment itself; a power sample stands for the time around it, unless start or end is said.",
    )
    by_input: Annotated[list[InputLogIn], f.several("One log for each input.", 1, MOST_INPUTS)] | None = None
