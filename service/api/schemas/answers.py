"""What does each question's answer hold? The object of the question's name, and what every answer says beside it."""

from typing import Annotated, Any

from pydantic import Field
from pydantic.json_schema import SkipJsonSchema, WithJsonSchema

from service.api.schemas.advice import CautionOut, DecisionOut, StepOut
from service.api.schemas.assumption import AssumptionOut
from service.api.schemas.base import InParts, Out, absent
from service.api.schemas.energy import EnergyOut
from service.api.schemas.facing import FacingOut
from service.api.schemas.finding import CompatibilityOut, FindingOut
from service.api.schemas.fixing import FixingOut
from service.api.schemas.payback import PaybackOut
from service.api.schemas.so_far import SoFarOut
from service.api.schemas.storage import StorageOut
from service.api.schemas.use import UseOut


class Beside(InParts):
    """What every answer about a set says beside its object."""

    cautions: list[CautionOut] = Field(max_length=100)
    cautions_kept_back: dict[str, int] = Field(description="By step: how many more there would be.")
    assumptions: list[AssumptionOut] = Field(max_length=1000)
    as_of: str = Field(description="The day for which dated rules and prices were read.", max_length=10)
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)
    used: Annotated[dict[str, Any], WithJsonSchema({"$component": "AppraisalIn"})] | SkipJsonSchema[None] = Field(
        default=None,
        exclude_if=absent,
        description="The completed request, to be edited and sent again. What was filled in then counts as given: it "
        "is assumed no longer, its range goes, and the band may get narrower. Only where `include` asks for it.",
    )


def _facing() -> Any:
    return Field(
        default=None,
        exclude_if=absent,
        description="Which way the railing faces. Only where the site tells when the sun was seen.",
    )


class _Appraisal(Out):
    decision: DecisionOut
    compatibility: CompatibilityOut
    fixing: FixingOut
    energy: EnergyOut
    use: UseOut
    payback: PaybackOut | None
    storage: StorageOut | None = Field(description="Null where no battery was asked about.")
    steps: list[StepOut] = Field(max_length=100)
    facing: FacingOut | SkipJsonSchema[None] = _facing()


class AppraisalOut(Beside, _Appraisal):
    """Is this set worth buying for this home? ``payback`` is null where no price per kWh is known."""


class _Energy(Out):
    energy: EnergyOut
    findings: Annotated[list[FindingOut], Field(max_length=16)] | SkipJsonSchema[None] = Field(
        default=None,
        exclude_if=absent,
        description="Only where the panels, as completed, give more volts in the cold than their input survives "
        "(`cold_voltage`): that is energy of a set which may destroy itself; and where hardly anything comes of an "
        "array or of the set, or in half of the year of an array (`next_to_nothing`): why. Without remedies. Nothing "
        "else of the fit is looked at here, and absence is no verdict: ask `/v1/compatibility`.",
    )
    facing: FacingOut | SkipJsonSchema[None] = _facing()


class EnergyAnswerOut(Beside, _Energy):
    """What will it yield?"""


class _Compatibility(Out):
    compatibility: CompatibilityOut
    fixing: FixingOut


class CompatibilityAnswerOut(Beside, _Compatibility):
    """Does it fit electrically, the socket, the local rule?"""


class _Payback(Out):
    payback: PaybackOut
    so_far: SoFarOut | None = Field(description="Null where no log was sent along.")
    storage: StorageOut | None = Field(description="Null where no battery was asked about.")


class PaybackAnswerOut(Beside, _Payback):
    """When is it paid back?"""
