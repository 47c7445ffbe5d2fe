"""Where are the tables read that answers rest on: climate, vocabulary, local rules?"""

from datetime import date
from functools import cache, lru_cache

from starlette.requests import Request
from starlette.responses import Response

from service.api.answers.climate import climate_of_query
from service.api.answers.local_rules import local_rule, local_rules
from service.api.answers.question import day_of
from service.api.answers.vocabulary import vocabulary
from service.api.deps import Deps
from service.api.render.accept import JSON
from service.api.render.json import as_json
from service.api.routes.described import Parameter, Served, described, parameter
from service.api.routes.desk import Desk
from service.api.routes.replies import fetched, format_of
from service.api.says import SAYS
from service.api.schemas.climate import ClimateOut
from service.api.schemas.local_rules import LocalRuleOut, LocalRulesOut
from service.api.schemas.mistakes import as_example
from service.api.schemas.reading import day_in_query, read_query
from service.api.schemas.vocabulary import VocabularyOut
from service.core.errors import UnknownAreaError
from service.core.model.bounds import BOUNDS

_PLACE = ("latitude_deg", "longitude_deg", "elevation_m")
_LONGEST_AREA = 8


def table_routes(desk: Desk) -> list[Served]:
    """The paths that only read."""
    return [_climate(desk), _vocabulary(desk.deps), _local_rules(desk.deps), _local_rule(desk.deps)]


def _climate(desk: Desk) -> Served:
    examples = {name: as_example(SAYS[name].example) for name in _PLACE}

    async def get_climate(request: Request) -> Response:
        media = format_of(request, (JSON,))
        query = read_query(examples, request.query_params.multi_items())
        content = await desk.workshop.run(lambda: as_json(climate_of_query(query, desk.deps)))
        return fetched(request, media, content)

    return Served("/v1/climate", get_climate, described(
        "read_climate", "What weather does the answer rest on?",
        "Monthly sun and air of a place, their source and how sure they are there.",
        tag="tables", answer=ClimateOut, parameters=[_number(name) for name in _PLACE],
        problems=("invalid_request", "no_climate")))  # fmt: skip


def _vocabulary(deps: Deps) -> Served:
    words = cache(lambda: as_json(vocabulary(deps)))

    async def get_vocabulary(request: Request) -> Response:
        return fetched(request, format_of(request, (JSON,)), words())

    return Served("/v1/vocabulary", get_vocabulary, described(
        "vocabulary", "What may I write, what is assumed if I don't?",
        "Every field, every number with its bounds, every word, every code, every default with its reason and source.",
        tag="tables", answer=VocabularyOut))  # fmt: skip


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


def _number(name: str) -> Parameter:
    bounds = BOUNDS[name]
    schema = {"type": "number", "minimum": bounds.low, "maximum": bounds.high}
    found = parameter(name, "query", SAYS[name].description, schema, required=name != "elevation_m")
    found["example"] = SAYS[name].example
    return found
