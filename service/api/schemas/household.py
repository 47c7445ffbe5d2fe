"""How are the home and its meter written in a request?"""

from typing import Annotated

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas.array import PlaneIn
from service.api.schemas.base import In

# A year of quarter-hours, and then some.
LOG_LENGTH = 36_000

HoursPair = Annotated[
    list[f.Hour], Field(min_length=2, max_length=2, description="From which hour to which.", examples=[[17, 23]])
]
HoursAtHome = Annotated[list[HoursPair], f.several("Hours at home; split what spans midnight.", 0, 6)]


class AtHomeIn(In):
    """When somebody is at home, in wall-clock hours."""

    weekday: HoursAtHome | None = None
    weekend: HoursAtHome | None = None


class MachineIn(In):
    """A machine whose hour can be chosen."""

    name: f.Name
    kwh_a_run: f.KwhARun
    runs_per_week: f.RunsPerWeek
    usual_hour: f.UsualHour | None = None


DEMAND_LENGTHS = (24, 168, 8760, 8784, 35_040, 35_136)


class LogIn(In):
    """What a meter wrote down, step by step. A year is made of it: gaps are filled by a stated rule and reported."""

    first: f.LogBegin
    step_minutes: f.StepMinutes
    values_w: Annotated[
        list[f.ValueW | None],
        Field(
            min_length=24,
            max_length=LOG_LENGTH,
            description="Mean power of each step; null where it is missing. Of several years the last counts.",
            examples=[[210, 205, None, 640] * 24],
        ),
    ]


class OtherGenerationIn(In):
    """A plant that stands on the roof already: it meets the demand first. Needs its size, its year or its hours."""

    panel_power_w: f.PanelPowerW | None = None
    plane: PlaneIn | None = None
    year_kwh: f.YearKwh | None = None
    values_w: (
        Annotated[list[f.ValueW], Field(min_length=8760, max_length=8760, description="8760 hourly means.")] | None
    ) = None


class DemandIn(In):
    """Your own load: one day, one week from Monday, one year of hourly mean powers, or a meter's log with gaps."""

    model_config = ConfigDict(json_schema_extra={"oneOf": [{"required": ["values_w"]}, {"required": ["log"]}]})

    values_w: (
        Annotated[
            list[f.ValueW],
            Field(
                min_length=24,
                max_length=DEMAND_LENGTHS[-1],
                description="24, 168, 8760 or 8784 hourly means, or 35040 or 35136 means of a year's quarter-hours.",
                json_schema_extra={"anyOf": [{"minItems": n, "maxItems": n} for n in DEMAND_LENGTHS]},
            ),
        ]
        | None
    ) = None
    log: LogIn | None = None
    kind: f.DemandKind | None = Field(
        default=None, description="Are a year's hours this home's own, each as it was, or an averaged profile?"
    )
    filled_share: f.FilledShare | None = None


class HouseholdIn(In):
    """What the home uses and when."""

    demand_kwh_per_year: f.DemandKwhPerYear | None = None
    demand: DemandIn | None = None
    persons: f.Persons | None = None
    always_on_w: f.AlwaysOnW | None = None
    at_home: AtHomeIn | None = None
    machines: Annotated[list[MachineIn], f.several("Machines whose hour can be chosen.", 0, 12)] | None = None
    other_generation: OtherGenerationIn | None = None
    stay_years: f.StayYears | None = None


class MeterIn(In):
    """How the meter counts what is sent out."""

    counts: f.MeterCounts | None = Field(
        default=None, description="Both ways, running backwards, one way only, or not known."
    )
    sums_phases: f.Yes | None = Field(default=None, description="Does it add up the phases, or count each alone?")
    netting: f.Netting | None = Field(default=None, description="Over which period import and export are netted.")
