"""Does it fit electrically, the socket, the local rule?"""

from service.api.answers.question import Question
from service.api.deps import Deps
from service.api.schemas.answers import CompatibilityAnswerOut
from service.api.schemas.as_sent import described_inputs
from service.api.schemas.finding import CompatibilityOut, FindingOut
from service.api.schemas.fixing import FixingOut
from service.api.schemas.requests import CompatibilityIn
from service.core.appraisal import priced_by_the_set_alone, priced_remedies, told_over_the_year
from service.core.compatibility import Checked, Compatibility, check, check_key
from service.core.energy import EnergyYear
from service.core.errors import ContradictionError


def compatibility(body: bytes, deps: Deps) -> CompatibilityAnswerOut:
    """The answer of /v1/compatibility; what findings and remedies cost in energy is in it where the year has one."""
    question = Question.asked(CompatibilityIn, body, deps)
    energy = _year_of(question)
    fit = checked(question)
    found = fit
    if energy is not None:
        with_prices, fit = priced(question, fit)
        found = told_over_the_year(with_prices, energy, None, None)
    return CompatibilityAnswerOut(
        compatibility=compatibility_out(question, fit, found),
        fixing=fixing_out(question),
        **question.beside(question.chosen_cautions(found.findings)),
    )


def _year_of(question: Question) -> EnergyYear | None:
    """The year, for hours and kWh of it; None where a sheet makes no curve: that is a finding itself."""
    try:
        return question.energy
    except ContradictionError:
        return None


def checked(question: Question, like: Checked | None = None, *, mending: bool = True) -> Compatibility:
    """All findings about the completed request; ``like`` and ``mending`` as of ``check``.

    Those with remedies are kept of sets met lately: no home, use or price has a part in them.
    """
    setup, assumptions, card, as_of = question.setup, question.assumptions, question.card, question.as_of
    hottest_c, cool_c = question.hottest_cell_c, question.cool_cell_c

    def made() -> Compatibility:
        return check(
            setup, assumptions, hottest_c, card, as_of, question.curves, cool_c, mending=mending, like=like
        )  # fmt: skip

    if not mending or question.weather is not None:  # nobody else asks about weather that a caller gave
        return made()
    return question.deps.fits.get(check_key(setup, assumptions, hottest_c, card, as_of, cool_c), made)


def priced(question: Question, fit: Compatibility) -> tuple[Compatibility, Compatibility]:
    """The findings with what their remedies cost in energy, and what of them is told again to other homes.

    Priced ones are kept of sets met lately, where no home has a part in that; else ``fit`` alone is.
    """
    setup, energy = question.setup, question.energy

    def made() -> Compatibility:
        return priced_remedies(fit, setup, question.year_kwh, question.assumptions)

    if question.weather is not None or not priced_by_the_set_alone(fit, setup):
        return made(), fit
    kept = question.deps.priced_fits.get((fit, energy), made)
    return kept, kept


def compatibility_out(question: Question, fit: Compatibility, told: Compatibility) -> CompatibilityOut:
    """The findings as they are answered; what is ``told`` of the set as it was found in ``fit`` is said once.

    That is what neither the year nor a price was added to. How a remedy is put into the request as it was sent hangs on
    how many of the inverter's inputs it describes.
    """
    inputs = described_inputs(question.given)
    said: dict[int, FindingOut] = question.deps.told_fits.get(
        (fit, inputs), lambda: {id(one): FindingOut.of(one, inputs) for one in fit.findings}
    )
    return CompatibilityOut.of(told, inputs, said)


def fixing_out(question: Question) -> FixingOut:
    """What a storm does, as it is answered; said once of a set."""
    forces = question.fixing
    said: FixingOut = question.deps.told_fixings.get(forces, lambda: FixingOut.of(forces))
    return said
