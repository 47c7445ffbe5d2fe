"""Are rooms opened by whoever asks there first, and does nobody's answer depend on who that was?"""

import json
import subprocess
import sys
from typing import Any

import pytest

from service.api.routes import rooms
from service.api.routes.desk import Desk
from service.api.routes.rooms import ROOMS, Rooms
from service.api.routes.workshop import Workshop
from service.app import deps_of
from service.settings import Settings
from tests.http.client import ask, service

# A process in which nothing was asked yet, and a copy of it for each question.
FRESH = """
import json, os, sys
from service.app import create_app
from tests.http.client import ask

app = create_app()
for method, path, sent in json.load(sys.stdin):
    if os.fork() == 0:
        before = set(sys.modules)
        answer = ask(method, path, app=app, headers=sent["headers"], content=sent["content"])
        loaded = sorted(name for name in set(sys.modules) - before if name.startswith("service.api.answers."))
        print(json.dumps([method, path, answer.status_code, answer.text, loaded]), flush=True)
        os._exit(0)
    os.wait()
"""


def questions() -> list[tuple[str, str, dict[str, Any]]]:
    """Method, path, and headers and body of one question to every path that there is: the document's first example."""
    described = service().openapi()
    found = []
    for path, operations in described["paths"].items():
        for method, operation in operations.items():
            headers, content = {"accept": "*/*"}, None
            if "requestBody" in operation:
                name = operation["requestBody"]["content"]["application/json"]["schema"]["$ref"].rpartition("/")[2]
                headers["content-type"] = "application/json"
                content = json.dumps(described["components"]["schemas"][name]["examples"][0])
            query = {one["name"]: one.get("example") for one in operation["parameters"] if one["in"] == "query"}
            asked = "&".join(f"{name}={value}" for name, value in query.items() if value is not None)
            where = path.replace("{area}", "DE").replace("{code}", "no_climate") + (f"?{asked}" if asked else "")
            found.append((method.upper(), where, {"headers": headers, "content": content}))
    return found


@pytest.fixture(scope="module")
def first_answers() -> list[Any]:
    """Of each question, asked of a process that was asked nothing before."""
    run = subprocess.run(
        [sys.executable, "-c", FRESH], input=json.dumps(questions()), capture_output=True, text=True, check=True
    )
    return [json.loads(line) for line in run.stdout.splitlines()]


def test_every_path_answers_the_first_question_of_a_process_as_any_other(first_answers: list[Any]) -> None:
    assert len(first_answers) == len(questions()) > 20
    for (method, path, sent), (_, _, status, text, _) in zip(questions(), first_answers, strict=True):
        later = ask(method, path, headers=sent["headers"], content=sent["content"])
        assert (status, text) == (200, later.text), path


def test_what_sets_need_is_open_when_the_service_is_ready(first_answers: list[Any]) -> None:
    loaded = {path: names for _, path, _, _, names in first_answers}
    for path in ("/v1/appraisal", "/v1/energy", "/v1/compatibility", "/v1/payback"):
        assert loaded[path] == []
    assert "service.api.answers.logbook" in loaded["/v1/logbook/review"]
    assert loaded["/v1/pickup-check"] == ["service.api.answers.pickup"]


def test_a_room_serves_the_paths_that_lead_to_it_and_no_other() -> None:
    desk = Desk(deps_of(Settings()), Workshop(1, 1), 1, 1.0, 1)
    found = Rooms(desk)
    for name in set(ROOMS.values()):
        assert set(found.room(name)) == {place for place, room in ROOMS.items() if room == name}


def test_a_room_that_cannot_be_opened_is_told_as_a_fault_and_tried_again(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = Desk(deps_of(Settings()), Workshop(1, 1), 1, 1.0, 1)
    found, load = Rooms(desk), rooms.import_module

    def broken(name: str) -> Any:
        raise ImportError(name)

    monkeypatch.setattr(rooms, "import_module", broken)
    with pytest.raises(ImportError):
        found.room("logbook")
    monkeypatch.setattr(rooms, "import_module", load)
    assert ("POST", "/v1/logbook/review") in found.room("logbook")
