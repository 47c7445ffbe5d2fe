"""Does it fit electrically, the socket, the local rule?"""

from service.api.answers.question import Question
from service.api.deps import Deps
from service.api.schemas.answers import CompatibilityAnswerOut
from service.api.schemas.finding import CompatibilityOut
from service.api.schemas.fixing import FixingOut
from service.api.schemas.requests import CompatibilityIn
from service.core.appraisal import priced_remedies, told_over_the_year
from service.core.compatibility import Checked, Compatibility, check
from service.core.errors import ContradictionError


def compatibility(body: bytes, deps: Deps) -> CompatibilityAnswerOut:
    """The answer of /v1/compatibility; what findings and remedies cost in energy is in it where the year has one."""
    question = Question.asked(CompatibilityIn, body, deps)
    found = _with_the_year(question)
    return CompatibilityAnswerOut(
        compatibility=CompatibilityOut.of(found, question.given),
        fixing=FixingOut.of(question.fixing),
        **question.beside(question.chosen_cautions(found.findings)),
    )


def _with_the_year(question: Question) -> Compatibility:
    """The findings with hours and kWh of the year; without, where a sheet makes no curve: that is a finding itself."""
    try:
        energy = question.energy
    except ContradictionError:
        return checked(question)
    found = priced_remedies(checked(question), question.setup, question.year_kwh, question.assumptions)
    return told_over_the_year(found, energy, None, None)


def checked(question: Question, like: Checked | None = None, *, mending: bool = True) -> Compatibility:
    """All findings about the completed request; ``like`` and ``mending`` as of ``check``."""
    return check(
        question.setup,
        question.assumptions,
        question.hottest_cell_c,
        question.card,
        question.as_of,
        question.curves,
        question.cool_cell_c,
        mending=mending,
        like=like,
    )
