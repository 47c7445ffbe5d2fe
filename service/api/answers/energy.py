"""What will it yield?"""

from service.api.answers.question import Question
from service.api.answers.what_if import what_if
from service.api.deps import Deps
from service.api.schemas.answers import EnergyAnswerOut
from service.api.schemas.energy import EnergyOut
from service.api.schemas.requests import EnergyIn
from service.api.schemas.tilt import FacingOut


def energy(body: bytes, deps: Deps) -> EnergyAnswerOut:
    """The answer of /v1/energy."""
    question = Question.asked(EnergyIn, body, deps)
    calendar = question.sky.calendar if "hours" in question.include else None
    return EnergyAnswerOut(
        energy=EnergyOut.of(question.energy, calendar, question.weather, what_if(question)),
        facing=FacingOut.where_noted(question.facing),
        **question.beside(question.chosen_cautions()),
    )
