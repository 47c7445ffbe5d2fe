"""Does the documentation tell the truth? Commands, the curl with its answer, paths, settings."""

import json
import re
import shlex
from pathlib import Path

import pytest

from service.settings import table_rows
from tests.http.client import ask, post

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def fenced(language: str) -> list[str]:
    """The code blocks of a language, in order."""
    return re.findall(rf"```{language}\n(.*?)```", README, flags=re.DOTALL)


def test_the_first_paragraph_states_the_job_before_anything_else() -> None:
    assert re.match(r"# Sunsill\n\nSunsill is a REST service for people who put together a plug-in solar set", README)


def test_there_are_two_one_line_commands_and_they_install_from_the_lock_files() -> None:
    commands = [line for line in README.splitlines() if line.startswith("python3 -m venv")]
    assert len(commands) == 2
    for command in commands:
        lock = re.search(r"-r (\S+)", command)
        assert lock is not None
        assert (ROOT / lock.group(1)).is_file()
        assert "--require-hashes" in command
    assert "try examples/kranichwerft.json" in commands[0]
    assert "-m pytest" in commands[1]


def test_the_curl_of_the_readme_gives_the_answer_that_is_printed_below_it() -> None:
    words = shlex.split(next(block for block in fenced("sh") if block.startswith("curl")))
    body = words[words.index("--data") + 1]
    path = re.sub(r"^http://[^/]+", "", next(word for word in words if word.startswith("http")))
    printed = json.loads(fenced("json")[0])
    answer = post(path, json.loads(body)).json()["energy"]
    assert {key: answer[key] for key in printed} == printed


def test_every_path_of_the_document_stands_in_the_readme_and_no_other() -> None:
    served = {path for path in ask("GET", "/openapi.json").json()["paths"] if path.startswith("/v1")}
    listed = set(re.findall(r"`(?:GET|POST|GET or POST) (/v1/[^`?]*)", README))
    assert listed == served


def test_the_readme_names_the_pages_pictures_and_texts_that_each_path_serves_and_no_other() -> None:
    served: dict[str, set[str]] = {}
    for path, methods in ask("GET", "/openapi.json").json()["paths"].items():
        formats = {name for one in methods.values() for name in one["responses"].get("200", {}).get("content", {})}
        if path.startswith("/v1") and (others := formats - {"application/json"}):
            served[path] = others
    listed: dict[str, set[str]] = {}
    for path, said in re.findall(
        r"^\| `(?:GET|POST|GET or POST) (/v1/[^`?]*)` \| (.*) \|$", README, flags=re.MULTILINE
    ):
        if names := set(re.findall(r"`((?:text|image)/(?!csv)[a-z+]+)`", said)):
            listed[path] = names
    assert listed == served
    assert {"text/html", "image/svg+xml"} <= set().union(*served.values())


def test_what_is_said_not_to_be_served_yet_is_not() -> None:
    said = README[README.index("Not served yet:") :].partition("\n\n")[0]
    assert not re.search(r"answers\s+as\s+pages", said)  # some are, see the list of paths
    request = json.loads((ROOT / "examples" / "kranichwerft.json").read_text(encoding="utf-8"))
    answer = post("/v1/appraisal", request).json()
    for name in re.findall(r"`([a-z_.]+)`", said):
        node = answer
        for part in name.split("."):
            node = node.get(part) or {}
        assert not node, name
    for path in re.findall(r"`(?:POST )?(/[^`]+)`", said):
        assert ask("POST", path).status_code == 404, path


@pytest.mark.parametrize(("variable", "default", "says"), table_rows())
def test_every_setting_is_documented_with_its_default(variable: str, default: str, says: str) -> None:
    shown = f"`{default}`" if default else "none"
    assert f"| `{variable}` | {shown} | {says} |" in README


def test_every_file_that_the_documentation_names_is_there() -> None:
    for text in (README, (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")):
        for path in re.findall(r"`((?:service|examples|docker|openapi|tests|\.ci)/[\w./-]*)`", text):
            assert (ROOT / path).exists(), path
