"""Where is the log of a running set reviewed?"""

from service.api.answers.logbook import logbook_review, logbook_review_csv
from service.api.render.accept import CSV, JSON, TEXT
from service.api.render.json import as_json
from service.api.render.logbook import logbook_text
from service.api.routes.described import NO_ANSWER, Served, described
from service.api.routes.desk import Desk
from service.api.schemas.log_csv import CSV_SAYS
from service.api.schemas.logbook import LogbookIn
from service.api.schemas.logbook_out import LogbookAnswerOut


def served(desk: Desk) -> list[Served]:
    """The path of logs."""
    review = desk.asks_large({JSON: logbook_review, CSV: logbook_review_csv}, {JSON: as_json, TEXT: logbook_text})
    return [
        Served("/v1/logbook/review", review, described(
            "review_logbook", "Is it doing what it should?",
            "A log of a running set beside what was to be expected in exactly the hours logged: gaps told apart and "
            "what they were worth, suspected causes with their evidence, days, months, the year to come. Counters with "
            "resets, energy of intervals, power, months noted by hand; of the set or of each input; up to 110,000 "
            "rows, 8 MiB. Neighbours' logs (`peers`) or `weather` of those days make it surer. Takes what an appraisal "
            "takes.",
            tag="questions", body=LogbookIn, answer=LogbookAnswerOut, formats=(JSON, TEXT), problems=NO_ANSWER,
            as_table=CSV_SAYS), "POST"),
    ]  # fmt: skip
