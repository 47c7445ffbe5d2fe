"""Where are adverts ranked?"""

from service.api.answers.shortlist import adverts_shortlist
from service.api.render.accept import JSON
from service.api.render.shortlist import shortlist_sheet
from service.api.routes.described import NO_ANSWER, Served, described
from service.api.routes.desk import ON_PAPER, PART, Desk, on_paper
from service.api.schemas.shortlist import ShortlistIn
from service.api.schemas.shortlist_out import ShortlistOut


def served(desk: Desk) -> list[Served]:
    """The path of the question."""
    shortlist = desk.asks_large({JSON: adverts_shortlist}, on_paper(shortlist_sheet))
    return [
        Served("/v1/adverts/shortlist", shortlist, described(
            "shortlist_adverts", "Which of these adverts should I ring up first?",
            "Every set of one to four panels of one advert or two with one inverter, and every set that is sold whole, "
            "is built and judged at this home; the best are listed with delivered cost, energy, payback, fit, doubts, "
            "what to ask the seller and what to bid. Figures are those of `/v1/appraisal` for the `request` of each "
            "set. In this order: sets that fit, or of which nothing known speaks against it; those that do not with "
            "the worst values of the class for ratings that nobody told; those that socket or rule refuse, which can "
            "be mended (`fit_group`). In each, sets with a smell of a trick come last; then by what is wanted, then "
            "the cheaper. While others do nearly as well no advert has more than a third of the rows, and while others "
            "pay no more than two thirds (what gave way is in `alternatives`); an advert told twice is listed once "
            "(`doubles`). Every advert that is not listed has its reason. Without `new_from_shop` nothing is called a "
            "bargain, no bid has a shop's price above it, and `questions` asks for it.",
            tag="questions", body=ShortlistIn, answer=ShortlistOut, formats=ON_PAPER, parameters=(PART,),
            problems=NO_ANSWER), "POST"),
    ]  # fmt: skip
