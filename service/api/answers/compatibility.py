"""Does it fit electrically, the socket, the local rule?"""

from service.api.answers.question import Question
from service.api.deps import Deps
from service.api.schemas.answers import CompatibilityAnswerOut
from service.api.schemas.finding import CompatibilityOut
from service.api.schemas.fixing import FixingOut
from service.api.schemas.requests import CompatibilityIn
from service.core.compatibility import Compatibility, check


def compatibility(body: bytes, deps: Deps) -> CompatibilityAnswerOut:
    """The answer of /v1/compatibility; what remedies cost in energy is not computed here."""
    question = Question.asked(CompatibilityIn, body, deps)
    found = checked(question)
    return CompatibilityAnswerOut(
        compatibility=CompatibilityOut.of(found, question.given),
        fixing=FixingOut.of(question.fixing),
        **question.beside(question.chosen_cautions(found.findings)),
    )


def checked(question: Question) -> Compatibility:
    """All findings about the completed request."""
    return check(
        question.setup,
        question.assumptions,
        question.hottest_cell_c,
        question.card,
        question.as_of,
        question.curves,
        question.cool_cell_c,
    )
