"""Is the advert extension whole, and does nothing in it reach outside or read a string as HTML? Without a browser."""

import json
import re
from pathlib import Path

import pytest

EXTENSION = Path(__file__).parents[2] / "examples" / "advert-extension" / "extension"
FILES = sorted(path for path in EXTENSION.rglob("*") if path.is_file())
SCRIPTS = [path for path in FILES if path.suffix == ".js"]
READS_HTML = re.compile(
    r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|DOMParser|setHTML|createContextualFragment|srcdoc"
    r"|\beval\b|new Function|importScripts|executeScript"
)


def named(path: Path) -> str:
    return str(path.relative_to(EXTENSION))


def test_every_file_is_used_and_every_file_that_is_named_is_there() -> None:
    manifest = json.loads((EXTENSION / "manifest.json").read_text(encoding="utf-8"))
    [content] = manifest["content_scripts"]
    start = {manifest["background"]["service_worker"], manifest["options_ui"]["page"], *content["js"], *content["css"]}
    found = {EXTENSION / name for name in start}
    waiting = list(found)
    while waiting:
        path = waiting.pop()
        names = re.findall(
            r"""(?:from "|src="|<link rel="stylesheet" href=")([^"]+)""", path.read_text(encoding="utf-8")
        )
        new = {(path.parent / name).resolve() for name in names} - found
        found |= new
        waiting += new
    assert found | {EXTENSION / "manifest.json"} == set(FILES)


@pytest.mark.parametrize("path", SCRIPTS, ids=named)
def test_no_script_reads_a_string_as_html_or_as_code(path: Path) -> None:
    assert READS_HTML.findall(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("path", FILES, ids=named)
def test_no_file_names_another_host_than_loopback(path: Path) -> None:
    addresses = re.findall(
        r"\b(?:https?|wss?):/+([\w.*-]+)|url\(|(?<!:)//([\w-]+\.[\w.-]+)", path.read_text(encoding="utf-8")
    )
    assert {one for pair in addresses for one in pair} <= {"127.0.0.1", "localhost", ""}


@pytest.mark.parametrize("path", SCRIPTS, ids=named)
def test_each_script_opens_with_what_it_is_for_and_stays_short(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("// ")
    assert len(lines) <= 150
    assert max(map(len, lines)) <= 140
