"""Where is it told what was published for a place?"""

from datetime import date
from functools import lru_cache

from starlette.requests import Request
from starlette.responses import Response

from service.api.answers.local_rules import local_rule, local_rules
from service.api.answers.question import day_of
from service.api.deps import Deps
from service.api.render.accept import JSON
from service.api.render.json import as_json
from service.api.routes.described import Parameter, Served, described, parameter
from service.api.routes.desk import Desk
from service.api.routes.replies import fetched, format_of
from service.api.schemas.local_rules import LocalRuleOut, LocalRulesOut
from service.api.schemas.reading import day_in_query
from service.core.errors import UnknownAreaError

_LONGEST_AREA = 8


def served(desk: Desk) -> list[Served]:
    """The paths of rule cards: all areas, and one."""
    return [_local_rules(desk.deps), _local_rule(desk.deps)]


def _local_rules(deps: Deps) -> Served:
    @lru_cache(maxsize=4)
    def areas(as_of: date) -> bytes:
        return as_json(local_rules(as_of, deps))

    async def get_local_rules(request: Request) -> Response:
        media = format_of(request, (JSON,))
        as_of = day_of(day_in_query("as_of", request.query_params.multi_items()), deps)
        return fetched(request, media, areas(as_of))

    return Served("/v1/local-rules", get_local_rules, described(
        "local_rules", "For which places is something known of what was published?",
        "Areas with dated cards. Information with a date, never an opinion on the law.",
        tag="tables", answer=LocalRulesOut, parameters=(_day(),), problems=("invalid_request",)))  # fmt: skip


def _local_rule(deps: Deps) -> Served:
    async def get_local_rule(request: Request) -> Response:
        media = format_of(request, (JSON,))
        area = request.path_params["area"]
        if len(area) > _LONGEST_AREA:
            raise UnknownAreaError(area)
        as_of = day_of(day_in_query("as_of", request.query_params.multi_items()), deps)
        return fetched(request, media, as_json(local_rule(area, as_of, deps)))

    area = parameter(
        "area", "path", "ISO 3166 code of the area.", {"type": "string", "maxLength": _LONGEST_AREA}, required=True
    )
    area["example"] = "DE"
    return Served("/v1/local-rules/{area}", get_local_rule, described(
        "local_rule", "What has been published for this place?",
        "The card that speaks on a day, and the others of the area. A wider area's card is said to be one.",
        tag="tables", answer=LocalRuleOut, parameters=(area, _day()),
        problems=("unknown_area", "invalid_request")))  # fmt: skip


def _day() -> Parameter:
    return parameter(
        "as_of", "query", "The day of the question; today where absent.",
        {"type": "string", "format": "date", "minLength": 10, "maxLength": 10,
         "pattern": "^2[01][0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"}, required=False,
    )  # fmt: skip
