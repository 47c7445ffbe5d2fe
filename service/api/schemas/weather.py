"""How is the weather written that a question is to rest on?"""

from typing import Annotated, Any

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas.base import In

# Four years of hours and their leap day, or a leap year of quarter-hours.
SERIES_LENGTH = 35_136


def _series(description: str, example: list[Any]) -> Any:
    """A column; it stops at its first bad entry, as thousands of them would cost seconds to tell."""
    return Field(min_length=1, max_length=SERIES_LENGTH, description=description, examples=[example], fail_fast=True)


class SeriesIn(In):
    """Hourly or finer means, one after the other; null where a step is missing.

    The times are ``first`` and ``step_minutes``, or ``times``; all columns are as long as each other. The light is that
    on level ground (``ghi_w_per_m2``, alone or with beam, diffuse or both), or that on the planes of the arrays.
    """

    model_config = ConfigDict(
        json_schema_extra={
            "examples": [
                {
                    "first": "2025-06-01T06:00:00+02:00",
                    "step_minutes": 60,
                    "stamp": "start",
                    "ghi_w_per_m2": [150, 310, 480, 620],
                }
            ],
            "allOf": [
                {"oneOf": [{"required": ["first", "step_minutes"]}, {"required": ["times"]}]},
                {"anyOf": [{"required": ["ghi_w_per_m2"]}, {"required": ["plane_w_per_m2"]}]},
            ],
        }
    )

    first: f.FirstStamp | None = None
    step_minutes: f.StepMinutes | None = None
    times: (
        Annotated[
            list[f.Instant],
            _series(
                "The stamp of each step, in order; single steps may be left out.",
                ["2025-03-01T00:00:00+01:00", "2025-03-01T01:00:00+01:00"],
            ),
        ]
        | None
    ) = None
    stamp: f.Stamp = Field(description="Which moment of its step a time stamp names.")
    ghi_w_per_m2: Annotated[list[f.GhiWPerM2 | None], _series("Light on level ground.", [0, 35, None, 412])] | None = (
        None
    )
    dni_w_per_m2: (
        Annotated[list[f.DniWPerM2 | None], _series("Light straight from the sun.", [0, 120, None, 610])] | None
    ) = None
    dhi_w_per_m2: (
        Annotated[list[f.DhiWPerM2 | None], _series("Light from the rest of the sky.", [0, 30, None, 120])] | None
    ) = None
    plane_w_per_m2: (
        Annotated[
            list[Annotated[list[f.PlaneWPerM2 | None], _series("Light on one array's plane.", [0, 40, None, 530])]],
            Field(
                min_length=1,
                max_length=8,
                fail_fast=True,
                description="Light on the plane of each array, as its panels get it: skyline, overhang and shade take "
                "nothing from it again. One list for each array; only /v1/energy takes it.",
                examples=[[[0, 40, None, 530]]],
            ),
        ]
        | None
    ) = None
    air_c: Annotated[list[f.AirC | None], _series("Air temperature.", [2.5, 3.1, None, 8.4])] | None = None
    wind_m_per_s: Annotated[list[f.WindMPerS | None], _series("Wind at the panels.", [1.2, 2.0, None, 3.1])] | None = (
        None
    )


class WeatherIn(In):
    """Which weather the answer rests on: the embedded climate, the caller's own series, or a file of the operator's."""

    source: f.WeatherSource = Field(
        description="climate: the embedded one. given: that of ``series``. file: that of ``file``, of a place within "
        "50 km; a log has days of its own and takes none."
    )
    series: SeriesIn | None = None
    file: f.WeatherFileName | None = None
