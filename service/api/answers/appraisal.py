"""Is this set worth buying for this home?"""

from service.api.answers.compatibility import checked, compatibility_out, fixing_out, priced
from service.api.answers.energy import energy_out
from service.api.answers.question import Question
from service.api.deps import Deps
from service.api.schemas.advice import DecisionOut, StepOut
from service.api.schemas.answers import AppraisalOut
from service.api.schemas.facing import FacingOut
from service.api.schemas.payback import PaybackOut
from service.api.schemas.requests import AppraisalIn
from service.api.schemas.storage import StorageOut
from service.api.schemas.use import UseOut
from service.core.appraisal import Again, appraise, told_over_the_year
from service.core.compatibility import Checked, Compatibility
from service.core.energy import EnergyYear
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.worth import Worth


def appraisal(body: bytes, deps: Deps) -> AppraisalOut:
    """The answer of /v1/appraisal: every room asked once, in order, and one decision."""
    question = Question.asked(AppraisalIn, body, deps)
    setup, energy = question.setup, question.energy
    account = question.account()
    fit = checked(question)
    with_prices, told_again = priced(question, fit)
    year, currency = energy.year_kwh.middle, setup.tariff.currency if setup.tariff else None
    saving = account.saving_first_year.middle if account else None
    per_kwh = saving / year if saving is not None and year else None
    compatibility = told_over_the_year(with_prices, energy, per_kwh, currency)
    found = appraise(
        given=question.given,
        setup=setup,
        assumptions=question.assumptions,
        compatibility=compatibility,
        energy=energy,
        worth=account,
        cautions=deps.cautions,
        year_kwh=question.year_kwh,
        again=again(question, fit),
        fixing=lambda setup, assumptions: question.instead(setup, assumptions).fixing,
    )
    return AppraisalOut(
        decision=DecisionOut.of(found.decision),
        compatibility=compatibility_out(question, told_again, compatibility),
        fixing=fixing_out(question),
        energy=energy_out(question),
        use=UseOut.of(question.use, question.habits(), setup.tariff.currency if setup.tariff else None),
        payback=payback_out(question, account),
        storage=storage_out(question, account),
        steps=[StepOut.of(step) for step in found.steps],
        facing=FacingOut.where_noted(question.facing),
        **question.beside(found.cautions),
    )


def again(question: Question, fit: Compatibility) -> Again:
    """How the set, of which ``fit`` was found, is asked again with something changed."""
    before = Checked(setup=question.setup, assumptions=question.assumptions, found=fit)

    def account(setup: Setup, assumptions: Assumptions) -> tuple[EnergyYear, Worth | None]:
        changed = question.instead(setup, assumptions)
        return changed.energy, changed.account()

    return Again(
        check=lambda setup, assumptions: checked(question.instead(setup, assumptions), before), account=account
    )


def payback_out(question: Question, account: Worth | None) -> PaybackOut | None:
    """The account in its currency; None where no price per kWh is known."""
    tariff, area = question.setup.tariff, question.setup.site.rule_area
    if account is None or tariff is None:
        return None
    known = question.deps.default_tables.prices.of(area)
    return PaybackOut.of(account, tariff, area, question.deps.grid_carbon, known)


def storage_out(question: Question, account: Worth | None) -> StorageOut | None:
    """The set without its battery and with it; None where nobody asked about one."""
    setup = question.answered.setup
    beside = question.storage(account)
    if beside is None or setup.storage is None:
        return None
    currency = setup.tariff.currency if setup.tariff else None
    return StorageOut.of(beside, setup.storage, currency, question.box_findings())
