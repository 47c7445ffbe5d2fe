"""Where is it asked what a set is worth, yields, fits and pays?"""

from service.api.answers.appraisal import appraisal
from service.api.answers.compatibility import compatibility
from service.api.answers.energy import energy, energy_at_hand
from service.api.answers.payback import payback
from service.api.render.accept import JSON, TEXT
from service.api.render.json import as_json
from service.api.render.report import report
from service.api.routes.described import NO_ANSWER, Served, described
from service.api.routes.desk import Desk
from service.api.schemas.answers import AppraisalOut, CompatibilityAnswerOut, EnergyAnswerOut, PaybackAnswerOut
from service.api.schemas.requests import AppraisalIn, CompatibilityIn, EnergyIn, PaybackIn


def served(desk: Desk) -> list[Served]:
    """The paths of one set at one home."""
    return [
        Served("/v1/appraisal", desk.asks(appraisal, {JSON: as_json, TEXT: report}), described(
            "appraise", "Is this set worth buying for this home?",
            "One decision with its reasons and conditions, out of fit, energy, use at home and money. Only the "
            "coordinates, one panel's rated power and the inverter's power must be there; all else is assumed and "
            "reported. As text it is a report for people.",
            tag="questions", body=AppraisalIn, answer=AppraisalOut, formats=(JSON, TEXT), problems=NO_ANSWER),
            "POST"),
        Served("/v1/energy", desk.asks(energy, at_hand=energy_at_hand), described(
            "energy", "What will it yield?",
            "A typical year: months, kinds of days, what is lost where, how sure it is. Of the fit only volts that "
            "destroy an input are told; ask `/v1/compatibility`. Takes what an appraisal takes.",
            tag="questions", body=EnergyIn, answer=EnergyAnswerOut, problems=NO_ANSWER), "POST"),
        Served("/v1/compatibility", desk.asks(compatibility), described(
            "compatibility", "Does it fit electrically, the socket, the local rule?",
            "Findings, worst first, each with its figures, its source and what would mend it. Takes what an appraisal "
            "takes.",
            tag="questions", body=CompatibilityIn, answer=CompatibilityAnswerOut, problems=NO_ANSWER), "POST"),
        Served("/v1/payback", desk.asks(payback), described(
            "payback", "When is it paid back?",
            "Of a set, with what an appraisal takes; or plainly of `energy.year_kwh`, `use.self_used_share` and a "
            "tariff. Parts of an appraisal's answer can be pasted in.",
            tag="questions", body=PaybackIn, answer=PaybackAnswerOut, problems=NO_ANSWER), "POST"),
    ]  # fmt: skip
