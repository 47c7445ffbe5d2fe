"""Where is it asked what weather an answer rests on?"""

from starlette.requests import Request
from starlette.responses import Response

from service.api.answers.climate import climate, climate_of_query
from service.api.render.accept import JSON
from service.api.render.json import as_json
from service.api.routes.described import NO_ANSWER, Parameter, Served, described, parameter
from service.api.routes.desk import Desk
from service.api.routes.replies import fetched, format_of
from service.api.says import SAYS
from service.api.schemas.climate import ClimateOut
from service.api.schemas.mistakes import as_example
from service.api.schemas.reading import read_query
from service.api.schemas.requests import ClimateIn
from service.core.model.bounds import BOUNDS

_PLACE = ("latitude_deg", "longitude_deg", "elevation_m")


def served(desk: Desk) -> list[Served]:
    """The path, with the place in the body or in the query."""
    return [
        Served("/v1/climate", desk.asks(climate), described(
            "climate", "What weather does the answer rest on?",
            "The same as GET, with the place in the body: coordinates stay out of addresses and logs.",
            tag="questions", body=ClimateIn, answer=ClimateOut, problems=NO_ANSWER), "POST"),
        _climate_by_query(desk),
    ]  # fmt: skip


def _climate_by_query(desk: Desk) -> Served:
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


def _number(name: str) -> Parameter:
    bounds = BOUNDS[name]
    schema = {"type": "number", "minimum": bounds.low, "maximum": bounds.high}
    found = parameter(name, "query", SAYS[name].description, schema, required=name != "elevation_m")
    found["example"] = SAYS[name].example
    return found
