"""Where is it asked what a meter must read at the door?"""

from service.api.answers.pickup import pickup_check
from service.api.render.pickup import pickup_sheet
from service.api.routes.described import NO_ANSWER, Served, described
from service.api.routes.desk import ON_PAPER, PART, Desk, on_paper
from service.api.schemas.pickup import PickupCheckIn, PickupCheckOut


def served(desk: Desk) -> list[Served]:
    """The path of the question."""
    return [
        Served("/v1/pickup-check", desk.asks(pickup_check, on_paper(pickup_sheet)), described(
            "pickup_check", "What must my multimeter read at the door?",
            "Expected volts and amperes of a sound panel in the light and warmth at the seller's door, with their "
            "range, and how to measure them without harm. With readings: panel by panel what they say, likely causes, "
            "what it is worth now. Panels of a lot are compared with one another, which beats any guess at the light. "
            "Indoors or after sunset nobody can tell, and the answer says when and where to ask for the reading. "
            "As text or HTML it is a page for the phone.",
            tag="questions", body=PickupCheckIn, answer=PickupCheckOut, formats=ON_PAPER, parameters=(PART,),
            problems=NO_ANSWER),
            "POST"),
    ]  # fmt: skip
