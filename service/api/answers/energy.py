"""What will it yield?"""

from service.api.answers.question import Question
from service.api.answers.what_if import nothing_because, what_if
from service.api.deps import Deps
from service.api.schemas.answers import EnergyAnswerOut
from service.api.schemas.energy import EnergyOut
from service.api.schemas.facing import FacingOut
from service.api.schemas.finding import FindingOut
from service.api.schemas.reading import read_if_sound
from service.api.schemas.requests import EnergyIn
from service.core.compatibility import over_voltage
from service.core.energy import next_to_nothing
from service.core.model.memo import NotKeptError

# What may be said where the answer is put together of what is kept: none of it takes long. A year of hours is longer.
_SHORT_BYTES = 16 * 1024
_SHORT = frozenset(
    {
        "site", "arrays", "inverter", "tilt", "socket_circuit", "downtime_days_per_year", "household", "meter",
        "tariff", "outlay", "money", "as_of",
    }
)  # fmt: skip


def energy(body: bytes, deps: Deps) -> EnergyAnswerOut:
    """The answer of /v1/energy."""
    return _answer(Question.asked(EnergyIn, body, deps))


def energy_at_hand(body: bytes, deps: Deps) -> EnergyAnswerOut:
    """The same of a set whose year is kept, in a millisecond or so, by ``deps`` that make nothing.

    Raises:
        NotKeptError: it takes longer, or something is wrong with the request; ask ``energy``.
        ContradictionError: there is no answer.
    """
    request = read_if_sound(EnergyIn, body, _is_short) if len(body) <= _SHORT_BYTES else None
    if request is None:
        raise NotKeptError
    return _answer(Question.of(request, deps))


def _is_short(request: EnergyIn) -> bool:
    """Is nothing asked for that is made anew each time, such as hours, a home's log, rates, or an export limit's?"""
    home, tariff = request.household, request.tariff
    return (
        request.model_fields_set <= _SHORT
        and not request.site.sun_seen
        and request.inverter.export_limit_w is None
        and (home is None or home.demand is None)
        and (tariff is None or not any(period.rates or period.hourly for period in tariff.periods))
    )


def _answer(question: Question) -> EnergyAnswerOut:
    over = over_voltage(question.setup, question.assumptions)
    found = (*over, *next_to_nothing(question.energy))
    return EnergyAnswerOut(
        energy=energy_out(question),
        facing=FacingOut.where_noted(question.facing),
        **({"findings": [FindingOut.of(one, 0) for one in found]} if found else {}),
        **question.beside(question.chosen_cautions(found)),
    )


def energy_out(question: Question) -> EnergyOut:
    """The year as it is answered; kept of a set whose year is, where nothing more was asked for."""
    energy, weather = question.energy, question.weather
    if weather is None and energy.before_export_limit is None and question.include.isdisjoint(("hours", "what_if")):
        kept: EnergyOut = question.deps.told_years.get(energy, lambda: EnergyOut.of(energy))
        return kept
    calendar = question.sky.calendar if "hours" in question.include else None
    changed = what_if(question)
    return EnergyOut.of(energy, calendar, weather, changed, nothing_because(question, changed))
