"""Where are adverts read?"""

from service.api.answers.adverts import adverts_reading
from service.api.render.accept import JSON
from service.api.render.readings import readings_sheet
from service.api.routes.described import Served, described
from service.api.routes.desk import ON_PAPER, PART, Desk, on_paper
from service.api.schemas.adverts import AdvertsIn, ReadingsOut


def served(desk: Desk) -> list[Served]:
    """The path of the question."""
    return [
        Served("/v1/adverts/reading", desk.asks_large({JSON: adverts_reading}, on_paper(readings_sheet)), described(
            "read_adverts", "What do these adverts claim?",
            "Up to 200 adverts in ten languages: what each claims of panels and inverters, with the words that say it, "
            "price for one, condition, delivery and doubts. What a text does not say is absent. `start` and `end` "
            "count code points of the field as sent (JavaScript counts an emoji twice). Nothing is stored; "
            "what was read lately stays in memory for as long as there is room.",
            tag="questions", body=AdvertsIn, answer=ReadingsOut, formats=ON_PAPER, parameters=(PART,)), "POST"),
    ]  # fmt: skip
