"""The copy with compiled reading rules: made whole or not at all, and it reads what the interpreted rules read."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from service import compiling
from service.bench.adverts import advert_of
from service.core.adverts import Advert, read_advert, read_board, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.core.adverts.test_hostile import REPEATED, VARIED

ROOT = Path(__file__).parents[2]
RULES = Path("core", "adverts")
CORPUS = sorted((ROOT / "tests" / "core" / "adverts").glob("*.jsonl"))
# In the copy's folder, so that its package is found before the repository's.
READS = """
import json, sys
from service.core.adverts import Advert, read_advert, read_board, vocabulary_of
from service.data.advert_words import load_advert_words
words = vocabulary_of(load_advert_words())
adverts = [Advert(**one) for one in json.load(sys.stdin)]
boards = [repr(read_board(adverts[at : at + 20], words)) for at in range(0, len(adverts), 20)]
json.dump([[repr(read_advert(advert, words)) for advert in adverts], boards], sys.stdout)
"""
GROWS = """
import json, sys
from functools import partial
from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.growth import grows_within
words = vocabulary_of(load_advert_words())
for text in json.load(sys.stdin):
    short, long = (partial(read_advert, Advert(title="", body=text[:length]), words) for length in (4_500, 18_000))
    long()  # words are looked up once
    assert grows_within(short, long, 8), text[:60]
"""
COMPILED = """
from types import FunctionType
from service.core.adverts import read_advert
def test_what_follows_asks_the_compiled_rules():
    assert not isinstance(read_advert, FunctionType)
"""
ASKED = (
    "core/adverts", "http/test_adverts.py", "http/test_hostile_input.py", "http/test_shortlist.py",
    "properties/test_advert_promises.py",
)  # fmt: skip


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that holds the copy. Without a compiler the tests are skipped, or fail where told so."""
    lacking = list(compiling.missing())
    if lacking:
        reason = f"no compiled copy was tried, missing: {'; '.join(lacking)}"
        if os.environ.get("TESTS_NEED_COMPILER") == "1":
            pytest.fail(reason)
        pytest.skip(reason)
    folder = tmp_path_factory.mktemp("compiled")
    made = run("-m", "service", "compile", str(folder), cwd=ROOT)
    assert made.returncode == 0, made.stderr
    assert made.stdout == f"{folder / 'service'}\n"
    return folder


def run(*arguments: str, cwd: Path, told: str = "", **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *arguments], cwd=cwd, input=told, capture_output=True, text=True, timeout=900, check=False,
        env={**os.environ, **environment},
    )  # fmt: skip


def adverts() -> Iterator[Advert]:
    for file in CORPUS:
        for line in file.read_text(encoding="utf-8").splitlines():
            if line.strip():
                yield advert_of(json.loads(line))
    for text in hostile():
        yield Advert(title=text[:1000], body=text, price_text=text[:200])


def hostile() -> list[str]:
    varied = ("".join(piece.format(at % 97 + 1, at * 7 % 89 + 2) for at in range(600)) for piece in VARIED.values())
    return [text[:20_000] for text in (*(piece * 20_000 for piece in REPEATED.values()), *varied)]


def test_each_rule_is_machine_code_and_none_lies_there_as_text_as_well(copy: Path) -> None:
    told = {path.stem for path in (ROOT / "service" / RULES).glob("*.py")} - {"__init__"}
    made = {path.name.partition(".")[0] for path in (copy / "service" / RULES).iterdir() if path.suffix != ".py"}
    assert told == made - {"__pycache__"}
    assert [path.name for path in (copy / "service" / RULES).glob("*.py")] == ["__init__.py"]


def test_nothing_but_the_copy_is_left_behind(copy: Path) -> None:
    assert sorted(path.name.partition(".")[0] for path in copy.iterdir()) == ["service", "sunsill_rules__mypyc"]


def test_every_text_is_read_as_the_interpreted_rules_read_it(copy: Path) -> None:
    texts = list(adverts())
    fields = [{"title": one.title, "body": one.body, "price_text": one.price_text} for one in texts]
    answer = run("-c", READS, cwd=copy, told=json.dumps(fields))
    assert answer.returncode == 0, answer.stderr
    readings, boards = json.loads(answer.stdout)
    words = vocabulary_of(load_advert_words())
    assert readings == [repr(read_advert(one, words)) for one in texts]
    assert boards == [repr(read_board(texts[at : at + 20], words)) for at in range(0, len(texts), 20)]


def test_work_grows_with_the_length_of_a_hostile_text_and_no_faster(copy: Path) -> None:
    answer = run("-c", GROWS, cwd=copy, told=json.dumps(hostile()), PYTHONPATH=str(ROOT))
    assert answer.returncode == 0, answer.stderr


def test_the_copy_passes_the_tests_of_reading_and_of_what_is_asked_over_http(copy: Path, tmp_path: Path) -> None:
    first = tmp_path / "test_compiled.py"
    first.write_text(COMPILED, encoding="utf-8")
    asked = (str(ROOT / "tests" / name) for name in ASKED)
    answer = run(
        "-m", "pytest", "-p", "no:cacheprovider", "-x", "--rootdir", str(ROOT), "-c", str(ROOT / "pyproject.toml"),
        "-o", f"pythonpath={copy} {ROOT}", str(first), *asked, cwd=copy,
    )  # fmt: skip
    assert answer.returncode == 0, answer.stdout[-4000:]


def test_a_folder_that_holds_a_service_is_left_as_it_is(tmp_path: Path) -> None:
    kept = tmp_path / "service" / "kept.txt"
    kept.parent.mkdir()
    kept.write_text("mine", encoding="utf-8")
    refused = run("-m", "service", "compile", str(tmp_path), cwd=ROOT)
    assert refused.returncode == 1
    assert f"{kept.parent} is there already" in refused.stderr
    assert [path.name for path in tmp_path.rglob("*")] == ["service", "kept.txt"]


def test_without_a_compiler_it_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    refused = run("-m", "service", "compile", str(tmp_path / "into"), cwd=ROOT, PATH=str(tmp_path))
    assert refused.returncode == 1
    assert "the C compiler" in refused.stderr
    assert "Traceback" not in refused.stderr
    assert not list(tmp_path.iterdir())


def test_names_in_capitals_are_told_as_constants_and_lines_stay_where_they_are() -> None:
    lines = ['"""Why?"""', "import re", "_NEAR, FAR = 2, 5  # pieces", "A = frozenset(", '    "ab"', ")",
             "_SIDES = (2.0, 3.0)", "B = 1", "B = 2", "c = 3"]  # fmt: skip
    told = compiling.with_constants("\n".join(lines)).split("\n")
    assert told[1] == "from typing import Final; import re"
    assert told[2:4] == ["_NEAR: Final = 2; FAR: Final = 5", "A: Final = frozenset("]
    assert (told[0], told[4:]) == (lines[0], lines[4:])


def test_rules_that_do_not_compile_are_told_and_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if list(compiling.missing()):
        pytest.skip("nothing compiles here")
    monkeypatch.setattr(compiling, "_SETUP", "print('why'); raise SystemExit(1)")
    with pytest.raises(compiling.CompileError, match=r"(?s)do not compile.*why"):
        compiling.compile_into(tmp_path / "into")
    assert not list((tmp_path / "into").iterdir())
