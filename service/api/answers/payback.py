"""When is it paid back?"""

from datetime import datetime

from service.api.answers.appraisal import payback_out, storage_out
from service.api.answers.place import country_at
from service.api.answers.question import Question, dated, day_of, price_unknown_sd_share
from service.api.deps import Deps
from service.api.schemas.advice import cautions_out
from service.api.schemas.answers import PaybackAnswerOut
from service.api.schemas.assumption import assumptions_out
from service.api.schemas.guide import guide_of
from service.api.schemas.mistakes import Mistake, RefusedRequest
from service.api.schemas.payback import PaybackOut
from service.api.schemas.reading import read_value, value_of
from service.api.schemas.requests import AppraisalIn, KnownEnergyIn, KnownLogIn, PaybackIn
from service.api.schemas.so_far import SoFarOut
from service.api.words import say
from service.core.appraisal import chosen_cautions
from service.core.completion import complete_account
from service.core.worth import Worth, so_far, worth_of_energy


def payback(body: bytes, deps: Deps) -> PaybackAnswerOut:
    """The answer of /v1/payback: of a set, or of a yield and a self-used share that the caller brings."""
    value = value_of(PaybackIn, body)
    request = read_value(PaybackIn, value)
    if request.energy is not None:
        return _of_known_energy(request, request.energy, deps)
    of_the_set = {name: part for name, part in value.items() if name != "logbook"}
    question = Question.of(read_value(AppraisalIn, of_the_set), deps)
    account = question.account()
    told = payback_out(question, account)
    if told is None:
        raise _no_price(request, question.setup.site.rule_area, deps)
    return PaybackAnswerOut(
        payback=told,
        so_far=_so_far(request.logbook, account, question.energy.months_kwh, told.currency),
        storage=storage_out(question, account),
        **question.beside(question.chosen_cautions()),
    )


def _of_known_energy(request: PaybackIn, energy: KnownEnergyIn, deps: Deps) -> PaybackAnswerOut:
    given, site = request.given(), request.site
    as_of = day_of(request.as_of, deps)
    completed = complete_account(given, deps.default_tables, as_of, None if site is None else country_at(site))
    if completed.tariff is None or request.use is None or completed.year_kwh is None:
        raise _no_price(request, completed.rule_area, deps)
    household = request.household
    account = worth_of_energy(
        completed.year_kwh,
        completed.self_used_share,
        completed.tariff,
        completed.outlay,
        completed.money,
        as_of,
        meter=completed.meter,
        stay_years=household.stay_years if household else None,
        demand_kwh_per_year=completed.demand_kwh,
        self_used_kwh=completed.self_used_kwh,
        plant_kwh=completed.plant_kwh,
        night_draw_kwh=energy.night_draw_kwh or 0.0,
        ac_power_w=request.inverter.ac_power_w if request.inverter else None,
        price_unknown_sd_share=price_unknown_sd_share(completed.assumptions),
    )
    area = completed.rule_area
    known = None if area is None else deps.default_tables.prices.of(area)
    chosen = chosen_cautions(deps.cautions, given, ())
    return PaybackAnswerOut(
        payback=PaybackOut.of(account, completed.tariff, completed.rule_area, deps.grid_carbon, known),
        so_far=_so_far(request.logbook, account, None, completed.tariff.currency),
        storage=None,
        cautions=cautions_out(chosen),
        cautions_kept_back=dict(chosen.kept_back),
        assumptions=assumptions_out(completed.assumptions),
        **dated(as_of, deps),
    )


def _so_far(
    log: KnownLogIn | None, account: Worth | None, months_kwh: tuple[float, ...] | None, currency: str
) -> SoFarOut | None:
    if log is None or account is None:
        return None
    begin, end = (datetime.fromisoformat(time.upper()).date() for time in (log.from_time, log.to_time))
    return SoFarOut.of(so_far(account, months_kwh, log.logged_kwh, begin, end), log.logged_kwh, currency)


def _no_price(request: PaybackIn, area: str | None, deps: Deps) -> RefusedRequest:
    known = None if area is None else deps.default_tables.prices.of(area)
    if request.tariff is not None and request.tariff.currency and known is not None:
        facts = {"known": known.currency, "currency": request.tariff.currency}
        open_at = [at for at, one in enumerate(request.tariff.periods) if one.import_price_per_kwh is None]
        mistake = Mistake(
            code="missing",
            pointer=f"/tariff/periods/{open_at[0] if open_at else 0}/import_price_per_kwh",
            problem=say("problems", "mistake.missing.price_in", facts),
            accepted=say("problems", "accepted.price_in", facts),
            example=guide_of(PaybackIn).example(("tariff", "periods", 0, "import_price_per_kwh")),
        )
        return RefusedRequest("invalid_request", (mistake,))
    mistake = Mistake(
        code="missing",
        pointer="/tariff",
        problem=say("problems", "mistake.missing.price"),
        accepted=say("problems", "accepted.tariff"),
        example=guide_of(PaybackIn).example(("tariff",)),
    )
    return RefusedRequest("invalid_request", (mistake,))
