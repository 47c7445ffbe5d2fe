"""Where is it asked which panel it is?"""

from service.api.answers.panel_identity import panel_identity
from service.api.render.accept import JSON, TEXT
from service.api.render.identity import identity_text
from service.api.render.json import as_json
from service.api.routes.described import Served, described
from service.api.routes.desk import Desk
from service.api.schemas.panel_identity import PanelIdentityIn, PanelIdentityOut


def served(desk: Desk) -> list[Served]:
    """The path of the question."""
    return [
        Served("/v1/panel-identity", desk.asks(panel_identity, {JSON: as_json, TEXT: identity_text}), described(
            "identify_panel", "Which panel is it?",
            "From power, size, visible cells, model code or pasted label text: the panels that it can be, each rating "
            "with its range and what that rests on, and what to read next on the label. Ranges rest on the public "
            "list of the California Energy Commission, which ends in 2019, and on the sizes of cells for newer panels. "
            "A match by code is a claim, no proof.",
            tag="questions", body=PanelIdentityIn, answer=PanelIdentityOut, formats=(JSON, TEXT)), "POST"),
    ]  # fmt: skip
