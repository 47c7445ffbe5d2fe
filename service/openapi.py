"""Does the interface document in the repository say what the service serves? Build it, write it, compare it."""

from pathlib import Path

from service.app import create_app, document_bytes

KEPT = Path(__file__).resolve().parent.parent / "openapi" / "openapi.json"


def built() -> bytes:
    """The document of the service as it is."""
    return document_bytes(create_app().openapi())


def write(path: Path = KEPT) -> None:
    """Write the document."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(built())


def is_current(path: Path = KEPT) -> bool:
    """Is the document in the repository the one that is served?"""
    return path.exists() and path.read_bytes() == built()
