"""Parts of answers that come again are written once: the bytes are those of the whole answer written at a time."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.api.answers.appraisal import appraisal
from service.api.answers.compatibility import compatibility
from service.api.answers.energy import energy
from service.api.answers.payback import payback
from service.api.answers.tilt import tilt
from service.api.render.json import as_json
from service.api.schemas.answers import Beside
from service.app import deps_of
from service.settings import Settings
from tests.http.client import PLAIN, SMALLEST, changed

DEPS = deps_of(Settings())
# A set of which something is refused, with what would mend it.
MENDABLE = json.loads((Path(__file__).parents[2] / "examples" / "kranichwerft.json").read_text())
_SEEN = [{"month": 6, "day": 21, "from_clock": "12:10", "to_clock": "19:00"}]


@pytest.mark.parametrize(
    ("answer", "request_"),
    [
        (energy, SMALLEST),
        (energy, changed("/include", ["used", "moves"])),
        (energy, changed("/site/sun_seen", _SEEN)),
        (energy, changed("/household", {"demand": {"values_w": [100] * 24}})),
        (appraisal, SMALLEST),
        (appraisal, changed("/include", ["used"])),
        (appraisal, MENDABLE),
        (compatibility, SMALLEST),
        (compatibility, MENDABLE),
        (payback, PLAIN),
        (payback, SMALLEST),
        (tilt, SMALLEST),
    ],
)
def test_an_answer_in_parts_is_the_answer_at_a_time(answer: Any, request_: dict[str, Any]) -> None:
    body = json.dumps(request_).encode()
    for _ in range(2):  # written, then told again
        told = answer(body, DEPS)
        assert isinstance(told, Beside)
        assert as_json(told) == told.__pydantic_serializer__.to_json(told, by_alias=True)


def test_a_copy_with_another_pointer_is_written_anew() -> None:
    told = energy(json.dumps(SMALLEST).encode(), DEPS)
    as_json(told)
    moved = told.model_copy(update={"assumptions": [one.at(f"/elsewhere{one.pointer}") for one in told.assumptions]})
    assert as_json(moved) == moved.__pydantic_serializer__.to_json(moved, by_alias=True)
    assert b'"/elsewhere/site/' in as_json(moved)


def test_an_empty_list_that_was_assumed_is_told_as_one_each_time() -> None:
    for _ in range(2):
        told = json.loads(as_json(energy(json.dumps(SMALLEST).encode(), DEPS)))
        assert [one["value"] for one in told["assumptions"] if one["pointer"] == "/household/machines"] == [[]]
