"""How is a log of a running set written in a request, and which parts of it cannot both hold?"""

from dataclasses import replace
from typing import Annotated, Any, ClassVar

from pydantic import ConfigDict

from service.api import fields as f
from service.api.schemas.base import In
from service.api.schemas.contradictions import of_inputs, of_inverter, of_panel
from service.api.schemas.inverter import InverterIn
from service.api.schemas.log_mistakes import of_readings
from service.api.schemas.log_series import ReadingsIn
from service.api.schemas.mistakes import Found
from service.api.schemas.requests import SMALLEST, Arrays, EnergyIn
from service.api.words import say

MOST_PEERS = 20

EXAMPLE: dict[str, Any] = {
    **SMALLEST,
    "readings": {
        "kind": "interval",
        "unit": "wh",
        "stamp": "start",
        "rows": [["2026-05-01T10:00:00+02:00", 212], ["2026-05-01T11:00:00+02:00", 268]],
    },
}


class PeerIn(In):
    """The log of a neighbour's set under the same sky. What is not said of that set is as with yours."""

    name: Annotated[str, f.text("Your name for it.", "3rd floor", 40)] | None = None
    arrays: Arrays | None = None
    inverter: InverterIn | None = None
    readings: ReadingsIn


class LogbookIn(EnergyIn):
    """Is it doing what it should? The set and the site as everywhere, and what was logged."""

    model_config = ConfigDict(json_schema_extra={"examples": [EXAMPLE]})
    most_values: ClassVar[int] = 460_000

    readings: ReadingsIn
    peers: (
        Annotated[
            list[PeerIn],
            f.several("Logs of neighbours: of one house they are the best weather there is.", 0, MOST_PEERS),
        ]
        | None
    ) = None

    def given(self) -> dict[str, Any]:
        """What was said of the set; the logs stay where they are."""
        return self.model_dump(exclude_unset=True, exclude_none=True, exclude={"readings", "peers"})

    def contradict(self, found: Found) -> None:
        """Those of all logs, and of the neighbours' sets."""
        of_readings(self.readings, self.inverter, "/readings", found)
        for at, peer in enumerate(self.peers or ()):
            of_readings(peer.readings, peer.inverter or self.inverter, f"/peers/{at}/readings", found)
        _of_peers(self, found)
        if self.weather is not None and self.weather.source == "file":
            accepted = say("problems", "accepted.hours_or_climate")
            found.contradiction("/weather", self.weather.file, "file_of_no_year", accepted, {"source": "climate"})


def _of_peers(request: LogbookIn, found: Found) -> None:
    for at, peer in enumerate(request.peers or ()):
        arrays, inverter = peer.arrays or request.arrays, peer.inverter or request.inverter
        own = Found()
        of_inputs(arrays, inverter, own)
        for place, array in enumerate(peer.arrays or ()):
            of_panel(array.panel, f"/arrays/{place}/panel", own)
        if peer.inverter:
            of_inverter(peer.inverter, "/inverter", own)
        found.mistakes += [replace(one, pointer=f"/peers/{at}{one.pointer}") for one in own.mistakes]
