"""Which words does a field take where there are too many of them for the document?"""

from collections.abc import Mapping, Sequence

from pydantic_core import PydanticCustomError

from service.data.currencies import load_currencies


def known_currency(value: str) -> str:
    """Refuse a code that looks like one of ISO 4217 and is none."""
    if value not in load_currencies():
        raise PydanticCustomError("unknown_word", "not an active code of ISO 4217")
    return value


def long_lists() -> Mapping[str, Sequence[str]]:
    """Words by field; the vocabulary prints them beside the closed lists of the document."""
    return {"currency": load_currencies()}
