import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from jsonschema.validators import Draft202012Validator
from openapi_spec_validator import validate
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

from service import openapi
from service.api.problems import STATUS
from service.api.words import template_of
from tests.http.client import COMPUTING, PLAIN, SMALLEST, ask, changed, post

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.json"))


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return dict(ask("GET", "/openapi.json").json())


def checker(document: dict[str, Any], name: str) -> Draft202012Validator:
    """A validator for one component."""
    registry: Registry[Any] = Registry().with_resource(
        "urn:document", Resource(contents=document, specification=DRAFT202012)
    )
    return Draft202012Validator({"$ref": f"urn:document#/components/schemas/{name}"}, registry=registry)


def nodes(node: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every object of the document with its place."""
    if isinstance(node, dict):
        yield path, node
        for key, inner in node.items():
            if key != "examples":
                yield from nodes(inner, f"{path}/{key}")
    elif isinstance(node, list):
        for at, inner in enumerate(node):
            yield from nodes(inner, f"{path}/{at}")


def test_the_document_is_valid_openapi_3_1(document: dict[str, Any]) -> None:
    validate(document)
    assert document["openapi"].startswith("3.1")


def test_the_document_in_the_repository_is_the_one_that_is_served() -> None:
    assert openapi.is_current(), "run: python -m service openapi"


def test_every_path_of_the_service_is_in_the_document(document: dict[str, Any]) -> None:
    assert set(document["paths"]) == {
        *COMPUTING, "/v1/compatibility/matrix", "/v1/panel-identity", "/v1/pickup-check", "/v1/adverts/reading",
        "/v1/adverts/shortlist", "/v1/tilt", "/v1/logbook/review",
        "/v1/climate", "/v1/vocabulary", "/v1/local-rules", "/v1/local-rules/{area}",
        "/health/live", "/health/ready", "/version", "/openapi.json", "/docs", "/problems", "/problems/{code}",
    }  # fmt: skip
    names = [one["operationId"] for methods in document["paths"].values() for one in methods.values()]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_requests_and_answers_keep_to_the_document(document: dict[str, Any], file: Path) -> None:
    for path in COMPUTING:
        spec = document["paths"][path]["post"]
        request = json.loads(file.read_text())
        body = spec["requestBody"]["content"]["application/json"]["schema"]["$ref"].rpartition("/")[2]
        checker(document, body).validate(request)
        answer = post(path, {**request, "include": ["used", "moves"]})
        name = spec["responses"]["200"]["content"]["application/json"]["schema"]["$ref"].rpartition("/")[2]
        checker(document, name).validate(answer.json())


def test_a_week_of_own_weather_keeps_to_the_document(document: dict[str, Any]) -> None:
    request = json.loads((Path(__file__).parents[2] / "examples" / "weather" / "a_week.json").read_text())
    checker(document, "EnergyIn").validate(request)
    answer = post("/v1/energy", {**request, "include": ["used", "moves", "hours"]})
    assert answer.status_code == 200, answer.text
    checker(document, "EnergyAnswerOut").validate(answer.json())


def test_the_small_answers_keep_to_the_document(document: dict[str, Any]) -> None:
    for path, name in {
        "/v1/vocabulary": "VocabularyOut",
        "/v1/local-rules": "LocalRulesOut",
        "/v1/local-rules/DE": "LocalRuleOut",
        "/v1/climate?latitude_deg=39.3&longitude_deg=-8.5": "ClimateOut",
        "/version": "VersionOut",
        "/health/live": "LiveOut",
        "/health/ready": "ReadyOut",
    }.items():
        checker(document, name).validate(ask("GET", path).json())
    checker(document, "PaybackAnswerOut").validate(post("/v1/payback", PLAIN).json())


def test_problems_keep_to_the_document(document: dict[str, Any]) -> None:
    for answer in (
        post("/v1/energy", b"{"),
        post("/v1/energy", {}),
        post("/v1/energy", changed("/site/latitude_deg", "x")),
        post("/v1/energy", SMALLEST, accept="image/png"),
        ask("GET", "/nothing-here"),
        ask("GET", "/v1/energy"),
        ask("GET", "/v1/climate?latitude_deg=0&longitude_deg=-30"),
    ):
        assert answer.headers["content-type"] == "application/problem+json"
        checker(document, "ProblemOut").validate(answer.json())
        assert answer.json()["status"] == answer.status_code


def test_every_example_of_the_document_is_accepted(document: dict[str, Any]) -> None:
    for path, methods in document["paths"].items():
        body = methods.get("post", {}).get("requestBody")
        if body is None:
            continue
        name = body["content"]["application/json"]["schema"]["$ref"].rpartition("/")[2]
        for example in document["components"]["schemas"][name].get("examples", ()):
            assert post(path, example).status_code == 200, (path, example)


# What another answer may be pasted into: the rest of it is passed over.
READ_IN_PART = {
    "KnownEnergyIn",
    "KnownUseIn",
    "KnownPlantIn",
    "KnownLogIn",
    "ReadAdvertIn",
    "ReadPriceIn",
    "ReadDoubtIn",
}


def test_requests_are_bounded_and_closed_and_answers_are_open(document: dict[str, Any]) -> None:
    for name, schema in document["components"]["schemas"].items():
        for path, node in nodes(schema, name):
            kinds = node.get("type", [])
            kinds = [kinds] if isinstance(kinds, str) else kinds
            if not isinstance(kinds, list):
                continue
            if "string" in kinds and not {"enum", "const"} & set(node):
                assert "maxLength" in node, path
            if "array" in kinds:
                assert "maxItems" in node, path
            if "integer" in kinds or ("number" in kinds and name.endswith("In")):
                assert {"minimum", "maximum"} <= set(node), path
            if "properties" in node and name.endswith("Out"):
                assert node.get("additionalProperties") is not False, path
        if name.endswith("In") and name not in READ_IN_PART:
            assert schema["additionalProperties"] is False, name


def test_a_field_left_out_breaks_a_request_only_where_it_must_be_there(document: dict[str, Any]) -> None:
    with pytest.raises(jsonschema.ValidationError):
        checker(document, "AppraisalIn").validate({"site": SMALLEST["site"]})


def test_problems_are_one_shared_component(document: dict[str, Any]) -> None:
    for methods in document["paths"].values():
        for operation in methods.values():
            for status, response in operation["responses"].items():
                if status >= "400":
                    assert response == {"$ref": f"#/components/responses/Problem{status}"}
    for name, response in document["components"]["responses"].items():
        if name.startswith("Problem"):
            schema = response["content"]["application/problem+json"]["schema"]
            assert schema == {"$ref": "#/components/schemas/ProblemOut"}


def test_every_problem_has_a_title_a_detail_and_a_page() -> None:
    for code in STATUS:
        for part in ("title", "detail", "about"):
            assert template_of("problems", f"{part}.{code}"), (part, code)
        assert ask("GET", f"/problems/{code}").status_code == 200
