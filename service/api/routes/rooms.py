"""Which room answers at which path? A room is opened, its modules loaded, when somebody first asks there.

A start and most workers need few of them. The first question to a room waits some tenth of a second more, beside the
event loop; what all sets need is open before the service is ready.
"""

from collections.abc import Iterator, Mapping
from importlib import import_module

from starlette.requests import Request
from starlette.responses import Response

from service.api.routes.described import Served
from service.api.routes.desk import Desk, Handler

# Each a module beside this one that has ``served``. In this order paths are described.
ROOMS: Mapping[tuple[str, str], str] = {
    ("POST", "/v1/appraisal"): "sets",
    ("POST", "/v1/energy"): "sets",
    ("POST", "/v1/compatibility"): "sets",
    ("POST", "/v1/compatibility/matrix"): "matrix",
    ("POST", "/v1/tilt"): "tilt",
    ("POST", "/v1/payback"): "sets",
    ("POST", "/v1/panel-identity"): "panel_identity",
    ("POST", "/v1/pickup-check"): "pickup",
    ("POST", "/v1/adverts/reading"): "adverts",
    ("POST", "/v1/adverts/shortlist"): "shortlist",
    ("POST", "/v1/logbook/review"): "logbook",
    ("POST", "/v1/climate"): "climate",
    ("GET", "/v1/climate"): "climate",
    ("GET", "/v1/vocabulary"): "vocabulary",
    ("GET", "/v1/local-rules"): "local_rules",
    ("GET", "/v1/local-rules/{area}"): "local_rules",
}
_OPEN_AT_START = ("sets",)


class Rooms:
    """The rooms, and the doors to them."""

    def __init__(self, desk: Desk) -> None:
        """Open what all sets need."""
        self.desk = desk
        self.opened: dict[str, Mapping[tuple[str, str], Served]] = {}
        for name in _OPEN_AT_START:
            self.room(name)

    def room(self, name: str) -> Mapping[tuple[str, str], Served]:
        """What is served there, by method and path; loaded once, also where several ask at the same time."""
        if name not in self.opened:
            served = import_module(f"service.api.routes.{name}").served(self.desk)
            self.opened.setdefault(name, {(one.method, one.path): one for one in served})
        return self.opened[name]

    def doors(self) -> Iterator[tuple[str, str, Handler]]:
        """Method and path of all that is served, with what answers there."""
        return ((method, path, self._door(method, path)) for method, path in ROOMS)

    def served(self) -> list[Served]:
        """All that is served; opens every room."""
        return [self.room(name)[place] for place, name in ROOMS.items()]

    def _door(self, method: str, path: str) -> Handler:
        name = ROOMS[method, path]

        async def handle(request: Request) -> Response:
            room = self.opened.get(name)
            if room is None:
                room = await self.desk.workshop.run(lambda: self.room(name))
            return await room[method, path].handle(request)

        return handle
