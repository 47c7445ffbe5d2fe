"""Where are many panels held against many inverters?"""

from service.api.answers.matrix import compatibility_matrix
from service.api.routes.described import NO_ANSWER, Served, described
from service.api.routes.desk import Desk
from service.api.schemas.matrix import MatrixIn, MatrixOut


def served(desk: Desk) -> list[Served]:
    """The path of the matrix."""
    return [
        Served("/v1/compatibility/matrix", desk.asks(compatibility_matrix), described(
            "compatibility_matrix", "Which of many panels suit which of many inverters?",
            "Up to 50 panels and 50 inverters: each pair as one panel alone on an input, panel side only, with the "
            "finding that its verdict hangs on. `/v1/compatibility` tells all findings of a pair and what would mend "
            "them.",
            tag="questions", body=MatrixIn, answer=MatrixOut, problems=NO_ANSWER), "POST"),
    ]  # fmt: skip
