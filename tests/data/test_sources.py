"""Does SOURCES.md name every table, and is each the file that was described?"""

import hashlib
import json
import re
from collections.abc import Mapping
from pathlib import Path

import pytest

import service.data

DATA = Path(service.data.__file__).parent
TABLE_ENDINGS = {".json", ".csv", ".npz", ".gz"}
FIELDS = ("origin", "licence", "read on", "sha256")


def sections() -> Mapping[str, Mapping[str, str]]:
    """Path below service/data -> its lines by name."""
    text = (DATA / "SOURCES.md").read_text(encoding="utf-8")
    found: dict[str, dict[str, str]] = {}
    for block in re.split(r"^## ", text, flags=re.MULTILINE)[1:]:
        heading, *lines = block.splitlines()
        named = (line.split(":", 1) for line in lines if ":" in line)
        found[heading.strip()] = {name.strip(): value.strip() for name, value in named}
    return found


def checksum_of(path: str) -> str:
    """SHA-256 of a file below service/data."""
    return hashlib.sha256((DATA / path).read_bytes()).hexdigest()


def tables() -> list[str]:
    """Every table under service/data, as a path below it."""
    return sorted(
        path.relative_to(DATA).as_posix()
        for path in DATA.rglob("*")
        if path.suffix in TABLE_ENDINGS and "__pycache__" not in path.parts
    )


def listed_in_manifests() -> Mapping[str, str]:
    """Tables that a described manifest.json lists for the folders beside it: path -> checksum."""
    found: dict[str, str] = {}
    for path in sections():
        if Path(path).name == "manifest.json":
            checksums = json.loads((DATA / path).read_text(encoding="utf-8"))
            beside = [p for p in tables() if p.startswith(f"{Path(path).parent.as_posix()}/") and p != path]
            found |= {p: checksums[Path(p).name] for p in beside if Path(p).name in checksums}
    return found


def test_every_table_has_a_section_or_stands_in_a_described_manifest() -> None:
    assert tables()
    assert set(tables()) - set(sections()) - set(listed_in_manifests()) == set()


def test_a_file_in_a_manifest_is_the_one_that_was_described() -> None:
    differ = [p for p, checksum in listed_in_manifests().items() if checksum_of(p) != checksum]
    assert differ == []


@pytest.mark.parametrize("path", sorted(sections()))
def test_a_section_describes_the_file_that_is_there(path: str) -> None:
    section = sections()[path]
    assert all(section.get(name) for name in FIELDS)
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", section["read on"])
    assert checksum_of(path) == section["sha256"]
