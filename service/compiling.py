"""How does a copy of the service come to be whose reading of adverts is machine code?

The rules of ``core/adverts`` are typed Python of many short functions; compiled ahead they read in little more than
half of the time. The repository stays Python alone: the compiled copy is another folder, made in one go or not at all.
Where a module was compiled, its source is left out of the copy: there is nothing to edit that would not be run.
"""

import ast
import importlib.util
import os
import shutil
import subprocess
import sys
import sysconfig
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

HERE = Path(__file__).resolve().parent
COMPILED = Path("core", "adverts")  # but for ``__init__``, which only hands on names
_PACKAGES = ("mypy", "mypyc", "setuptools")
_LEFT_OUT = shutil.ignore_patterns("__pycache__", "builders", "*.so", "*.pyd")
# Further optimisation costs three times the time and makes nothing faster. What no other library asks for is hidden,
# so that modules call one another directly.
_FLAGS = "-fvisibility=hidden"
_SETUP = """\
from mypyc.build import mypycify
from setuptools import setup

setup(
    name="sunsill-rules",
    ext_modules=mypycify({paths}, opt_level="1", debug_level="0", multi_file=True, group_name="{shared}"),
    script_args=["-q", "build_ext", "--inplace"],
)
"""
_SHARED = "sunsill_rules"  # what the machine code of all modules lies in, beside the package
_LINES_SHOWN = 20


class CompileError(Exception):
    """Why no compiled copy was made, as one text for whoever asked for it."""

    def __init__(self, *why: object) -> None:
        super().__init__("".join(map(str, why)))


def compile_into(folder: Path) -> Path:
    """Write a copy of the service with compiled reading rules into a folder, to be run from there.

    Args:
        folder: where the package is put, under the name that it has here; made where there is none.

    Returns:
        The package in that folder. Beside it lies the one file that holds all machine code.

    Raises:
        CompileError: something is missing, stands in the way or does not compile; nothing was written.
    """
    package = folder / HERE.name
    if package.exists():
        raise CompileError(package, " is there already; name a folder without it, since old and new would mix")
    lacking = list(missing())
    if lacking:
        raise CompileError("missing: ", "; ".join(lacking))
    if not list((HERE / COMPILED).glob("read.py")):
        raise CompileError(HERE, " is a compiled copy; compile from the sources")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".compiling-", dir=folder) as scratch:
            made = Path(scratch, HERE.name)
            shutil.copytree(HERE, made, ignore=_LEFT_OUT)
            _compile(made)
            shared = next(Path(scratch).glob(f"{_SHARED}*"))
            shared.replace(folder / shared.name)
            made.rename(package)  # last: where the package is, all is
    except OSError as error:
        raise CompileError(folder, ": ", error.strerror or error) from error
    return package


def missing() -> Iterator[str]:
    """What compiling needs and this machine has not, with where to get it."""
    lacking = [name for name in _PACKAGES if importlib.util.find_spec(name) is None]
    if lacking:
        yield f"{', '.join(lacking)} (pip install --require-hashes -r docker/requirements-compile.lock)"
    compiler = (sysconfig.get_config_var("CC") or "cc").split()[0]
    if shutil.which(compiler) is None:
        yield f"the C compiler {compiler} (Debian: apt-get install gcc libc6-dev)"
    if not Path(sysconfig.get_path("include"), "Python.h").exists():
        yield "the headers of Python (Debian: apt-get install python3-dev)"


def _compile(package: Path) -> None:
    """Put machine code in the place of the sources of the rules, of each of them."""
    sources = sorted(one for one in (package / COMPILED).glob("*.py") if one.name != "__init__.py")
    paths = [str(one.relative_to(package.parent)) for one in sources]
    for one in sources:
        one.write_text(with_constants(one.read_text(encoding="utf-8")), encoding="utf-8")
    (package.parent / "setup.py").write_text(_SETUP.format(paths=paths, shared=_SHARED), encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "setup.py"], cwd=package.parent, capture_output=True, text=True, check=False,
        env={**os.environ, "CFLAGS": _FLAGS},
    )  # fmt: skip
    lacking = [one.stem for one in sources if not list(one.parent.glob(f"{one.stem}.*{_suffix()}"))]
    if done.returncode or lacking:
        told = "\n".join((done.stdout + done.stderr).splitlines()[-_LINES_SHOWN:])
        raise CompileError("the rules do not compile: ", ", ".join(lacking), "\n", told)
    for one in sources:
        one.unlink()


def with_constants(source: str) -> str:
    """A module whose names in capitals are told to the compiler as constants, which it need not look up by name.

    Left as they are: names given twice, with a type, or for a row that holds a float (mypyc 2.4 takes it for unset).
    """
    tree, lines = ast.parse(source), source.split("\n")
    given = Counter(one.id for one in ast.walk(tree) if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store))
    marked = False
    for node in tree.body:
        if not isinstance(node, ast.Assign) or _is_row_of_floats(node):
            continue
        names = [one for one in ast.walk(node.targets[0]) if isinstance(one, ast.Name)]
        if not all(one.id.isupper() and given[one.id] == 1 for one in names):
            continue
        line, name = lines[node.lineno - 1], node.targets[0]
        if isinstance(name, ast.Name):
            lines[node.lineno - 1] = line.replace(f"{name.id} =", f"{name.id}: Final =", 1)
        elif isinstance(node.value, ast.Tuple):
            pairs = zip(names, node.value.elts, strict=True)
            told = "; ".join(f"{one.id}: Final = {ast.unparse(value)}" for one, value in pairs)
            lines[node.lineno - 1 : node.end_lineno] = [told] + [""] * ((node.end_lineno or 0) - node.lineno)
        marked = True
    first = next((one.lineno for one in tree.body if isinstance(one, ast.Import | ast.ImportFrom)), None)
    if marked:
        at = (tree.body[1].lineno if first is None else first) - 1
        lines[at] = f"from typing import Final; {lines[at]}"  # on a line that is there, so that the others keep theirs
    return "\n".join(lines)


def _is_row_of_floats(node: ast.Assign) -> bool:
    """Is it one name for a tuple with floats in it?"""
    floats = (isinstance(one, ast.Constant) and isinstance(one.value, float) for one in ast.walk(node.value))
    return isinstance(node.targets[0], ast.Name) and isinstance(node.value, ast.Tuple) and any(floats)


def _suffix() -> str:
    suffix: str = sysconfig.get_config_var("EXT_SUFFIX").rpartition(".")[2]
    return f".{suffix}"
