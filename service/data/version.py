"""Which edition of the tables is this? A digest over all packaged table files; any change of a figure changes it."""

import hashlib
from importlib.resources import files
from importlib.resources.abc import Traversable

_TABLES = (".json", ".csv", ".npz", ".npy", ".gz", ".bin")


def data_version(own: bytes = b"") -> str:
    """Twelve hexadecimal digits of the SHA-256 over names and bytes of the packaged tables, in order of their names.

    ``own``: what an operator adds to the tables, so that another content is another edition.
    """
    digest = hashlib.sha256()
    for name, file in sorted(_tables(files("service.data"), ""), key=lambda pair: pair[0]):
        digest.update(name.encode() + b"\0" + hashlib.sha256(file.read_bytes()).digest())
    digest.update(own)
    return digest.hexdigest()[:12]


def _tables(folder: Traversable, path: str) -> list[tuple[str, Traversable]]:
    found: list[tuple[str, Traversable]] = []
    for entry in folder.iterdir():
        name = f"{path}/{entry.name}"
        if entry.is_dir():
            if entry.name not in {"builders", "__pycache__"}:
                found += _tables(entry, name)
        elif entry.name.endswith(_TABLES):
            found.append((name, entry))
    return found
