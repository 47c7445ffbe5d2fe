"""The examples in the docstrings give what they say."""

import doctest
from importlib import import_module
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
WITH_EXAMPLES = sorted(
    ".".join(file.relative_to(ROOT).with_suffix("").parts)
    for file in (ROOT / "service").rglob("*.py")
    if "builders" not in file.parts and ">>> " in file.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_each_example_gives_what_it_says(name: str) -> None:
    found = doctest.testmod(import_module(name), optionflags=doctest.ELLIPSIS)
    assert found.attempted > 0
    assert found.failed == 0
