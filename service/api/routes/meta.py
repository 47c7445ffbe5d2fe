"""Does it run, can it answer, and which edition is it?"""

from starlette.requests import Request
from starlette.responses import Response

from service.api.deps import Deps
from service.api.render.accept import JSON
from service.api.render.json import as_json
from service.api.routes.described import Served, described
from service.api.routes.replies import fetched, format_of, momentary
from service.api.schemas.meta import LiveOut, ReadyOut, VersionOut


def meta_routes(deps: Deps) -> list[Served]:
    """Health and version."""
    alive = as_json(LiveOut(status="alive"))
    ready = as_json(ReadyOut(status="ready"))
    version = as_json(VersionOut(service_version=deps.service_version, data_version=deps.data_version))

    async def live(request: Request) -> Response:  # noqa: ARG001 - the framework passes it
        return momentary(JSON, alive)

    async def is_ready(request: Request) -> Response:  # noqa: ARG001
        return momentary(JSON, ready)

    async def which_version(request: Request) -> Response:
        return fetched(request, format_of(request, (JSON,)), version)

    return [
        Served("/health/live", live, described(
            "live", "Does the process run?", "Answers as long as the process does, whatever else it is doing.",
            tag="operation", answer=LiveOut, fresh=True)),
        Served("/health/ready", is_ready, described(
            "ready", "Can it answer questions?", "Answers once the tables are read. A load balancer asks here.",
            tag="operation", answer=ReadyOut, fresh=True)),
        Served("/version", which_version, described(
            "version", "Which edition answers?",
            "Version of the code, and a digest of the tables that the answers rest on.",
            tag="operation", answer=VersionOut)),
    ]  # fmt: skip
