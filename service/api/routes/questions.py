"""Where are questions about a set asked? Each path: what it reads, what it answers, in which formats."""

from collections.abc import Awaitable, Callable, Mapping
from typing import Any

from pydantic import BaseModel
from starlette.requests import Request
from starlette.responses import Response

from service.api.answers.adverts import adverts_reading
from service.api.answers.appraisal import appraisal
from service.api.answers.climate import climate
from service.api.answers.compatibility import compatibility
from service.api.answers.energy import energy, energy_at_hand
from service.api.answers.logbook import logbook_review, logbook_review_csv
from service.api.answers.matrix import compatibility_matrix
from service.api.answers.panel_identity import panel_identity
from service.api.answers.payback import payback
from service.api.answers.pickup import pickup_check
from service.api.answers.shortlist import adverts_shortlist
from service.api.answers.tilt import tilt, tilt_with_map
from service.api.deps import Deps
from service.api.render.accept import CSV, JSON, SVG, TEXT
from service.api.render.identity import identity_text
from service.api.render.json import as_json
from service.api.render.logbook import logbook_text
from service.api.render.pickup import pickup_text
from service.api.render.report import report
from service.api.render.tilt_map import tilt_map_svg
from service.api.routes.described import Served, described
from service.api.routes.desk import Desk
from service.api.schemas.adverts import AdvertsIn, ReadingsOut
from service.api.schemas.answers import (
    AppraisalOut,
    CompatibilityAnswerOut,
    EnergyAnswerOut,
    PaybackAnswerOut,
    TiltAnswerOut,
)
from service.api.schemas.climate import ClimateOut
from service.api.schemas.log_csv import CSV_SAYS
from service.api.schemas.logbook import LogbookIn
from service.api.schemas.logbook_out import LogbookAnswerOut
from service.api.schemas.matrix import MatrixIn, MatrixOut
from service.api.schemas.panel_identity import PanelIdentityIn, PanelIdentityOut
from service.api.schemas.pickup import PickupCheckIn, PickupCheckOut
from service.api.schemas.requests import AppraisalIn, ClimateIn, CompatibilityIn, EnergyIn, PaybackIn, TiltIn
from service.api.schemas.shortlist import ShortlistIn
from service.api.schemas.shortlist_out import ShortlistOut

ONLY_JSON: Mapping[str, Callable[[Any], bytes]] = {JSON: as_json}
NO_ANSWER = ("no_climate", "contradiction")


Answer = Callable[[bytes, Deps], BaseModel]
Handler = Callable[[Request], Awaitable[Response]]
Asked = Callable[..., Handler]


def question_routes(desk: Desk) -> list[Served]:
    """The computing paths."""

    def asked(
        answer: Answer,
        renders: Mapping[str, Callable[[Any], bytes]] = ONLY_JSON,
        in_format: Mapping[str, Answer] | None = None,
        at_hand: Answer | None = None,
    ) -> Handler:
        async def handle(request: Request) -> Response:
            return await desk.answer(request, answer, renders, in_format, at_hand)

        return handle

    async def log_asked(request: Request) -> Response:
        return await desk.answer_large(
            request, {JSON: logbook_review, CSV: logbook_review_csv}, {JSON: as_json, TEXT: logbook_text}
        )

    def adverts_asked(answer: Answer) -> Handler:
        async def handle(request: Request) -> Response:
            return await desk.answer_large(request, {JSON: answer}, ONLY_JSON)

        return handle

    return [
        *_of_a_set(asked),
        *_of_things_for_sale(asked),
        *_of_adverts(adverts_asked),
        *_once_it_runs(asked, log_asked),
    ]


def _of_a_set(asked: Asked) -> list[Served]:
    return [
        Served("/v1/appraisal", asked(appraisal, {JSON: as_json, TEXT: report}), described(
            "appraise", "Is this set worth buying for this home?",
            "One decision with its reasons and conditions, out of fit, energy, use at home and money. Only the "
            "coordinates, one panel's rated power and the inverter's power must be there; all else is assumed and "
            "reported. As text it is a report for people.",
            tag="questions", body=AppraisalIn, answer=AppraisalOut, formats=(JSON, TEXT), problems=NO_ANSWER),
            "POST"),
        Served("/v1/energy", asked(energy, at_hand=energy_at_hand), described(
            "energy", "What will it yield?",
            "A typical year: months, kinds of days, what is lost where, how sure it is. Takes what an appraisal takes.",
            tag="questions", body=EnergyIn, answer=EnergyAnswerOut, problems=NO_ANSWER), "POST"),
        Served("/v1/compatibility", asked(compatibility), described(
            "compatibility", "Does it fit electrically, the socket, the local rule?",
            "Findings, worst first, each with its figures, its source and what would mend it. Takes what an appraisal "
            "takes.",
            tag="questions", body=CompatibilityIn, answer=CompatibilityAnswerOut, problems=NO_ANSWER), "POST"),
        Served("/v1/compatibility/matrix", asked(compatibility_matrix), described(
            "compatibility_matrix", "Which of many panels suit which of many inverters?",
            "Up to 50 panels and 50 inverters: each pair as one panel alone on an input, panel side only, with the "
            "finding that its verdict hangs on. `/v1/compatibility` tells all findings of a pair and what would mend "
            "them.",
            tag="questions", body=MatrixIn, answer=MatrixOut, problems=NO_ANSWER), "POST"),
        Served("/v1/tilt", asked(tilt, {JSON: as_json, SVG: tilt_map_svg}, {SVG: tilt_with_map}), described(
            "tilt", "How should it stand, and is moving it by season worth it?",
            "The best plane within what the mounts or `tilt.bounds` allow, for all arrays together and each apart, by "
            "energy, use at home or money; what comes near it, schedules with their days, rules of thumb beside it, on "
            "request a map, also as a picture (`Accept: image/svg+xml`). `site.sun_seen` tells which way a railing "
            "faces. Takes what an appraisal takes.",
            tag="questions", body=TiltIn, answer=TiltAnswerOut, formats=(JSON, SVG), problems=NO_ANSWER), "POST"),
        Served("/v1/payback", asked(payback), described(
            "payback", "When is it paid back?",
            "Of a set, with what an appraisal takes; or plainly of `energy.year_kwh`, `use.self_used_share` and a "
            "tariff. Parts of an appraisal's answer can be pasted in.",
            tag="questions", body=PaybackIn, answer=PaybackAnswerOut, problems=NO_ANSWER), "POST"),
    ]  # fmt: skip


def _of_things_for_sale(asked: Asked) -> list[Served]:
    return [
        Served("/v1/panel-identity", asked(panel_identity, {JSON: as_json, TEXT: identity_text}), described(
            "identify_panel", "Which panel is it?",
            "From power, size, visible cells, model code or pasted label text: the panels that it can be, each rating "
            "with its range and what that rests on, and what to read next on the label. Ranges rest on the public "
            "list of the California Energy Commission, which ends in 2019, and on the sizes of cells for newer panels. "
            "A match by code is a claim, no proof.",
            tag="questions", body=PanelIdentityIn, answer=PanelIdentityOut, formats=(JSON, TEXT)), "POST"),
        Served("/v1/pickup-check", asked(pickup_check, {JSON: as_json, TEXT: pickup_text}), described(
            "pickup_check", "What must my multimeter read at the door?",
            "Expected volts and amperes of a sound panel in the light and warmth at the seller's door, with their "
            "range, and how to measure them without harm. With readings: panel by panel what they say, likely causes, "
            "what it is worth now. Panels of a lot are compared with one another, which beats any guess at the light. "
            "Indoors or after sunset nobody can tell, and the answer says when and where to ask for the reading. "
            "As text it is a page for the phone.",
            tag="questions", body=PickupCheckIn, answer=PickupCheckOut, formats=(JSON, TEXT), problems=NO_ANSWER),
            "POST"),
    ]  # fmt: skip


def _of_adverts(asked: Asked) -> list[Served]:
    return [
        Served("/v1/adverts/reading", asked(adverts_reading), described(
            "read_adverts", "What do these adverts claim?",
            "Up to 200 adverts in ten languages: what each claims of panels and inverters, with the words that say it, "
            "price for one, condition, delivery and doubts. What a text does not say is absent. `start` and `end` "
            "count code points of the field as sent (JavaScript counts an emoji twice). Nothing is kept.",
            tag="questions", body=AdvertsIn, answer=ReadingsOut), "POST"),
        Served("/v1/adverts/shortlist", asked(adverts_shortlist), described(
            "shortlist_adverts", "Which of these adverts should I ring up first?",
            "Every set of one to four panels of one advert or two with one inverter, and every set that is sold whole, "
            "is built and judged at this home; the best are listed with delivered cost, energy, payback, fit, doubts, "
            "what to ask the seller and what to bid. Figures are those of `/v1/appraisal` for the `request` of each "
            "set. In this order: sets that fit, or of which nothing known speaks against it; those that do not with "
            "the worst values of the class for ratings that nobody told; those that socket or rule refuse, which can "
            "be mended (`fit_group`). In each, sets with a smell of a trick come last; then by what is wanted, then "
            "the cheaper. While others do nearly as well no advert has more than a third of the rows (what gave way is "
            "in `alternatives`); an advert told twice is listed once (`doubles`). Every advert that is not listed has "
            "its reason. Without `new_from_shop` nothing is called a bargain, and `questions` asks for it.",
            tag="questions", body=ShortlistIn, answer=ShortlistOut, problems=NO_ANSWER), "POST"),
    ]  # fmt: skip


def _once_it_runs(asked: Asked, log_asked: Handler) -> list[Served]:
    return [
        Served("/v1/logbook/review", log_asked, described(
            "review_logbook", "Is it doing what it should?",
            "A log of a running set beside what was to be expected in exactly the hours logged: gaps told apart and "
            "what they were worth, suspected causes with their evidence, days, months, the year to come. Counters with "
            "resets, energy of intervals, power, months noted by hand; of the set or of each input; up to 110,000 "
            "rows, 8 MiB. Neighbours' logs (`peers`) or `weather` of those days make it surer. Takes what an appraisal "
            "takes.",
            tag="questions", body=LogbookIn, answer=LogbookAnswerOut, formats=(JSON, TEXT), problems=NO_ANSWER,
            as_table=CSV_SAYS), "POST"),
        Served("/v1/climate", asked(climate), described(
            "climate", "What weather does the answer rest on?",
            "The same as GET, with the place in the body: coordinates stay out of addresses and logs.",
            tag="questions", body=ClimateIn, answer=ClimateOut, problems=NO_ANSWER), "POST"),
    ]  # fmt: skip
