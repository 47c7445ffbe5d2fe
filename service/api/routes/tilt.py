"""Where is it asked how a set should stand?"""

from service.api.answers.tilt import tilt, tilt_with_map
from service.api.render.accept import JSON, SVG
from service.api.render.json import as_json
from service.api.render.tilt_map import tilt_map_svg
from service.api.routes.described import NO_ANSWER, Served, described
from service.api.routes.desk import Desk
from service.api.schemas.requests import TiltIn
from service.api.schemas.tilt import TiltAnswerOut


def served(desk: Desk) -> list[Served]:
    """The path of planes and their map."""
    return [
        Served("/v1/tilt", desk.asks(tilt, {JSON: as_json, SVG: tilt_map_svg}, {SVG: tilt_with_map}), described(
            "tilt", "How should it stand, and is moving it by season worth it?",
            "The best plane within what the mounts or `tilt.bounds` allow, for all arrays together and each apart, by "
            "energy, use at home or money; what comes near it, schedules with their days, rules of thumb beside it, on "
            "request a map, also as a picture (`Accept: image/svg+xml`). `site.sun_seen` tells which way a railing "
            "faces. Takes what an appraisal takes.",
            tag="questions", body=TiltIn, answer=TiltAnswerOut, formats=(JSON, SVG), problems=NO_ANSWER), "POST"),
    ]  # fmt: skip
