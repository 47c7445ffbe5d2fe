"""What will it yield?"""

from service.api.answers.question import Question
from service.api.answers.what_if import what_if
from service.api.deps import Deps
from service.api.schemas.answers import EnergyAnswerOut
from service.api.schemas.energy import EnergyOut
from service.api.schemas.facing import FacingOut
from service.api.schemas.requests import EnergyIn


def energy(body: bytes, deps: Deps) -> EnergyAnswerOut:
    """The answer of /v1/energy."""
    question = Question.asked(EnergyIn, body, deps)
    return EnergyAnswerOut(
        energy=energy_out(question),
        facing=FacingOut.where_noted(question.facing),
        **question.beside(question.chosen_cautions()),
    )


def energy_out(question: Question) -> EnergyOut:
    """The year as it is answered; kept of a set whose year is, where nothing more was asked for."""
    energy, weather = question.energy, question.weather
    if weather is None and energy.before_export_limit is None and question.include.isdisjoint(("hours", "what_if")):
        kept: EnergyOut = question.deps.told_years.get(energy, lambda: EnergyOut.of(energy))
        return kept
    calendar = question.sky.calendar if "hours" in question.include else None
    return EnergyOut.of(energy, calendar, weather, what_if(question))
