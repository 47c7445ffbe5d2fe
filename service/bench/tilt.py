"""What do a map of planes and a whole tilt question cost? CPU of the process, beside one year of the plain chain.

The workload: two panels of the Kranichwerft home on an inverter that cuts them, nothing around them, place and set at
hand. A map of 6552 planes with both panels clipped together; the same without a limit that cuts; and the whole answer
of /v1/tilt with schedules of two and four planes, with and without the map, from the bytes of the request to those of
the answer.
"""

import argparse
import json
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from time import process_time

from service.api.answers.question import Question
from service.api.answers.tilt import tilt
from service.api.render.json import as_json
from service.api.schemas.requests import AppraisalIn
from service.app import deps_of
from service.core.energy import direct_current
from service.core.model.place import Plane
from service.core.tilt.lattice import lattice_within
from service.core.tilt.near import map_of
from service.core.tilt.stand import stand_of
from service.core.tilt.sums import Together
from service.core.tilt.wish import ANYWHERE
from service.settings import Settings

ROUNDS = 15
LIMIT_W = 600
_AROUND = ("skyline", "overhang", "side_walls", "shade", "cover")


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltCost:
    """CPU milliseconds, the least of several rounds: what others do on the machine only adds."""

    map_ms: float
    map_planes_computed: int
    request_ms: float
    request_with_map_ms: float
    plain_year_ms: float


def main(arguments: Sequence[str]) -> int:
    """``bench tilt [FILE] [--json]``: FILE is one appraisal's request, the Kranichwerft home by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench tilt")
    parser.add_argument("file", nargs="?", type=Path, default=Path("examples/kranichwerft.json"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    cost = tilt_cost(chosen.file)
    print(json.dumps(asdict(cost)) if chosen.json else report(cost))
    return 0


def tilt_cost(request_file: Path, rounds: int = ROUNDS) -> TiltCost:
    """Time all of it."""
    request = json.loads(request_file.read_text(encoding="utf-8"))
    for array in request["arrays"]:
        for name in _AROUND:
            array.pop(name, None)
    request["inverter"]["set_limit_w"] = LIMIT_W
    # free to stand anywhere, so that nothing is left out of the search
    asked = {**request, "tilt": {"bounds": {"low_tilt_deg": 0, "high_tilt_deg": 90, "low_azimuth_deg": 0,
                                            "high_azimuth_deg": 360}}}  # fmt: skip
    with_map = {**asked, "tilt": {**asked["tilt"], "map": {}}}
    deps = deps_of(Settings())
    question = Question.asked(AppraisalIn, json.dumps(request).encode(), deps)
    stand = stand_of(question.setup, question.sky)
    still = tuple(array.plane for array in question.setup.arrays)
    together = Together(stand=stand, home=None, moving=dict.fromkeys(range(len(still)), 0.0), still=still)

    def whole(body: bytes) -> Callable[[], object]:
        return lambda: as_json(tilt(body, deps))

    def least(call: Callable[[], object]) -> float:
        call()
        return 1000.0 * min(_seconds(call) for _ in range(rounds))

    arrays = tuple(replace(one, plane=Plane(tilt_deg=31, azimuth_deg=181)) for one in question.setup.arrays)
    other = replace(question.setup, arrays=arrays)

    def a_map() -> object:
        return map_of(together, "usual", (1.0, 5.0))

    return TiltCost(
        map_ms=least(a_map),
        map_planes_computed=len(lattice_within(ANYWHERE, "usual").planes()),
        request_ms=least(whole(json.dumps(asked).encode())),
        request_with_map_ms=least(whole(json.dumps(with_map).encode())),
        plain_year_ms=least(lambda: direct_current(other, question.sky)),
    )


def _seconds(call: Callable[[], object]) -> float:
    started = process_time()
    call()
    return process_time() - started


def report(cost: TiltCost) -> str:
    """The figures as a small table."""
    return "\n".join(
        (
            f"map of 6552 planes, two panels clipped together {cost.map_ms:8.1f} ms",
            f"of which planes computed                         {cost.map_planes_computed:8d}",
            f"map / one plain year of both panels             {cost.map_ms / cost.plain_year_ms:8.2f} x",
            f"whole request with schedules                    {cost.request_ms:8.1f} ms",
            f"whole request with schedules and map            {cost.request_with_map_ms:8.1f} ms",
            f"one plain year of both panels, d.c. side        {cost.plain_year_ms:8.1f} ms",
        )
    )
