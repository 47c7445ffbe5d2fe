import hashlib
import json
import re
from base64 import b64encode
from pathlib import Path

import pytest

from service.api.schemas.answers import AppraisalOut
from tests.http.client import SMALLEST, ask, post

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.json"))


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_the_report_stays_within_72_columns_and_begins_with_the_decision(file: Path) -> None:
    answer = post("/v1/appraisal", file.read_bytes(), accept="text/plain")
    assert answer.headers["content-type"] == "text/plain; charset=utf-8"
    lines = answer.text.split("\n")
    assert max(len(line) for line in lines) <= 72
    assert lines[0].split()[0] in {"Worth", "Not", "Cannot"}
    for heading in ("Why", "What was checked", "Energy", "Use at home", "What to mind", "What was assumed"):
        assert heading in lines


def test_the_report_says_what_the_json_says() -> None:
    figures = AppraisalOut.model_validate(post("/v1/appraisal", SMALLEST).json())
    report = " ".join(post("/v1/appraisal", SMALLEST, accept="text/plain").text.split())
    assert figures.decision.text in report
    for reason in figures.decision.because:
        assert " ".join(reason.text.split()) in report
    for finding in figures.compatibility.findings:
        if finding.verdict != "fits":
            assert finding.text in report
    for caution in figures.cautions:
        assert caution.text in report


def report_of(request: object) -> str:
    return " ".join(post("/v1/appraisal", request, accept="text/plain").text.split())


def home(name: str, **parts: object) -> dict[str, object]:
    path = next(file for file in EXAMPLES if file.stem == name)
    return {**json.loads(path.read_text()), **parts}


def test_the_losses_on_paper_add_up_to_what_is_left() -> None:
    text = report_of(home("kranichwerft"))
    account = text[text.index(" in the light on the panels:") : text.index(" kWh are left.")]
    lost = [float(figure) for figure in re.findall(r"- (-?[0-9.]+) kWh", account)]
    light, left = re.search(r"Of ([0-9]+) kWh in the light", text), re.search(r"([0-9]+) kWh are left", text)
    assert light
    assert left
    assert float(light[1]) - sum(lost) == pytest.approx(float(left[1]), abs=1.5)


def test_a_set_is_refused_for_its_price_or_for_what_no_inverter_bears() -> None:
    many = {"arrays": [{"count": 12, "joined": "parallel", "panel": {"rated_power_w": 410}}]}
    text = report_of({**SMALLEST, **many})
    assert text.startswith("Worth it, if:")
    assert "Connect fewer panels" in text
    dear = report_of(home("kranichwerft", outlay={"items": [{"what": "panels", "amount": 5000}]}))
    assert dear.startswith("Not worth it.")
    assert "Worth up to about" in dear


def test_the_same_amount_is_not_said_with_different_digits() -> None:
    text = report_of(SMALLEST)
    amounts = re.findall(r"(?:no more than|brings back about|orth up to about) ([0-9.]+) EUR", text)
    assert len(amounts) > 2
    assert len(set(amounts)) == 1, amounts


def test_what_costs_nothing_is_not_paid_back_after_nought_years() -> None:
    items = [{"what": "panels", "amount": 100}, {"what": "rebate", "amount": -150}]
    text = report_of(home("kranichwerft", outlay={"items": items}))
    assert "from the first day" in text
    assert "0.0 years" not in text
    assert "One kWh from the set costs" not in text


def test_the_report_names_things_in_words_and_with_their_units() -> None:
    text = report_of(SMALLEST)
    assert re.search(r"- coldest air: -[0-9.]+ C\.", text)
    assert "panel connector (array 1)" in text
    assert "/arrays/0" not in text
    assert "Array array" not in text


def test_nothing_is_called_safe_or_legal() -> None:
    for file in EXAMPLES:
        words = post("/v1/appraisal", file.read_bytes(), accept="text/plain").text.lower()
        for word in (" is safe", " are safe", " is legal", " are legal", " is allowed"):
            assert word not in words


def test_json_is_the_default_and_the_caller_may_prefer_text() -> None:
    for accept, kind in {
        "*/*": "application/json",
        "application/*": "application/json",
        "text/plain;q=0.9, application/json;q=0.1": "text/plain",
        "text/*": "text/plain",
        "text/html, text/plain;q=0.5": "text/plain",
        "application/json;q=0, */*": "text/plain",
    }.items():
        assert post("/v1/appraisal", SMALLEST, accept=accept).headers["content-type"].startswith(kind), accept


def test_an_unknown_format_is_refused_with_what_there_is() -> None:
    answer = post("/v1/appraisal", SMALLEST, accept="image/png")
    assert answer.status_code == 406
    assert "application/json, text/plain" in answer.json()["detail"]


def test_a_computed_answer_is_not_stored_and_carries_the_digest_of_its_bytes() -> None:
    answer = post("/v1/energy", SMALLEST)
    assert answer.headers["cache-control"] == "no-store"
    digest = b64encode(hashlib.sha256(answer.content).digest()).decode()
    assert answer.headers["repr-digest"] == f"sha-256=:{digest}:"
    assert "etag" not in answer.headers
    assert post("/v1/energy", SMALLEST, **{"if-none-match": "*"}).status_code == 200


@pytest.mark.parametrize(
    "path", ["/version", "/v1/vocabulary", "/v1/local-rules", "/v1/local-rules/DE?as_of=2026-11-25", "/openapi.json"]
)
def test_a_fetched_answer_has_a_strong_etag_and_is_not_sent_twice(path: str) -> None:
    first = ask("GET", path)
    tag = first.headers["etag"]
    assert tag.startswith('"')
    again = ask("GET", path, headers={"if-none-match": f'"other", W/{tag}'})
    assert again.status_code == 304
    assert again.content == b""
    assert again.headers["etag"] == tag
    assert "Accept" in again.headers["vary"]
    assert ask("GET", path, headers={"if-none-match": '"other"'}).status_code == 200


def test_head_is_get_without_the_body() -> None:
    got, headed = ask("GET", "/v1/vocabulary"), ask("HEAD", "/v1/vocabulary")
    assert headed.status_code == 200
    assert headed.content == b""
    assert headed.headers["content-length"] == str(len(got.content))
    assert headed.headers["etag"] == got.headers["etag"]


def test_every_answer_names_its_language_its_request_and_its_time() -> None:
    answer = post("/v1/energy", SMALLEST, **{"accept-language": "de, en;q=0.5"})
    assert answer.headers["content-language"] == "en"
    assert answer.headers["server-timing"].startswith("app;dur=")
    assert len(answer.headers["request-id"]) >= 8


def test_a_plain_request_id_of_the_caller_is_kept_and_any_other_is_not() -> None:
    assert ask("GET", "/version", headers={"request-id": "abc-12345"}).headers["request-id"] == "abc-12345"
    for bad in ("short", "x" * 65, "with space", "semi;colon"):
        assert ask("GET", "/version", headers={"request-id": bad}).headers["request-id"] != bad


def test_errors_follow_the_wanted_format() -> None:
    broken = {**SMALLEST, "arrays": []}
    text = post("/v1/energy", broken, accept="text/plain, application/json;q=0.1")
    assert text.status_code == 422
    assert text.headers["content-type"].startswith("text/plain")
    assert "/arrays" in text.text
    assert max(len(line) for line in text.text.split("\n")) <= 72
    page = post("/v1/energy", broken, accept="text/html, application/json;q=0.1")
    assert page.headers["content-type"].startswith("text/html")
    assert "default-src 'none'" in page.headers["content-security-policy"]
    assert (
        post("/v1/energy", broken, accept="image/png, */*;q=0.1").headers["content-type"] == "application/problem+json"
    )


def test_the_type_of_a_problem_is_a_page_that_is_served() -> None:
    problem = post("/v1/energy", {}).json()
    for accept in ("text/html", "text/plain"):
        page = ask("GET", problem["type"], headers={"accept": accept})
        assert page.status_code == 200
        assert problem["title"] in page.text
    listed = ask("GET", "/problems", headers={"accept": "text/plain"}).text
    assert problem["code"] in listed
    assert ask("GET", "/problems/none_such").status_code == 404


def test_the_docs_need_nothing_from_elsewhere() -> None:
    page = ask("GET", "/docs", headers={"accept": "text/html"})
    assert page.status_code == 200
    for sign in ("http://", "https://", "<script", "src=", "@import", "url("):
        assert sign not in page.text.replace("http://127.0.0.1:8080", ""), sign
    assert "/v1/appraisal" in page.text
    assert "`" not in page.text
    assert "<code>energy.year_kwh</code>" in page.text
    assert "series | parallel | one_string | null" in page.text
    assert "number -1 to 0 or null" in page.text
    assert "None" not in page.text


def test_what_a_caller_wrote_is_escaped_in_a_page() -> None:
    answer = post("/v1/energy", {**SMALLEST, "<b>x</b>": "<script>1</script>"}, accept="text/html, */*;q=0.1")
    assert "<script>" not in answer.text
    assert "<b>" not in answer.text
    assert "&lt;script&gt;" in answer.text


def test_a_page_of_an_allowed_origin_may_read_answers_and_errors_and_no_other() -> None:
    ours, other = {"origin": "https://portal.example"}, {"origin": "https://elsewhere.example"}
    for path in ("/version", "/nothing-here"):
        allowed = ask("GET", path, headers=ours)
        assert allowed.headers["access-control-allow-origin"] == "https://portal.example"
        assert "Request-Id" in allowed.headers["access-control-expose-headers"]
        assert allowed.headers["vary"].lower().count("origin") == 1
        assert "access-control-allow-origin" not in ask("GET", path, headers=other).headers
    preflight = {**ours, "access-control-request-method": "POST", "access-control-request-headers": "content-type"}
    answer = ask("OPTIONS", "/v1/energy", headers=preflight)
    assert answer.status_code == 204
    assert "POST" in answer.headers["access-control-allow-methods"]
    assert "Content-Type" in answer.headers["access-control-allow-headers"]
    refused = ask("OPTIONS", "/v1/energy", headers={**preflight, **other})
    assert "access-control-allow-origin" not in refused.headers


def test_a_post_answer_is_one_json_document_in_utf8() -> None:
    answer = post("/v1/appraisal", SMALLEST)
    assert answer.headers["content-type"] == "application/json"
    json.loads(answer.content.decode("utf-8", "strict"))
