"""How does an answer look as JSON?"""

from functools import cache
from typing import Any

from pydantic import BaseModel
from pydantic_core import to_json

from service.api.schemas.base import InParts, Told


def as_json(answer: BaseModel) -> bytes:
    """UTF-8 JSON of an answer, in the order of its fields. Numbers are finite: the answer's class has seen to it."""
    return _in_parts(answer) if isinstance(answer, InParts) else _whole(answer)


def _whole(answer: BaseModel) -> bytes:
    return answer.__pydantic_serializer__.to_json(answer, by_alias=True)


def _in_parts(answer: InParts) -> bytes:
    """The same of an answer whose parts are told again and again: they are written once."""
    values = vars(answer)
    told = [
        name + _text(values[key])
        for key, name, optional in _fields(answer.__class__)
        if not optional or values[key] is not None
    ]
    return b"{%b}" % b",".join(told)


@cache
def _fields(answer: type[InParts]) -> tuple[tuple[str, bytes, bool], ...]:
    """Of each field: its name, the same in JSON, and whether it is left out where there is nothing."""
    return tuple(
        (name, b'"%b":' % name.encode(), field.exclude_if is not None) for name, field in answer.model_fields.items()
    )


def _text(value: Any) -> bytes:
    if isinstance(value, Told):
        return _written(value)
    if isinstance(value, list) and value and isinstance(value[0], Told):
        return b"[%b]" % b",".join([_written(one) for one in value])
    return as_json(value) if isinstance(value, BaseModel) else to_json(value)


def _written(part: Told) -> bytes:
    text: bytes | None = getattr(part, "written", None)
    if text is None:
        text = _whole(part)
        object.__setattr__(part, "written", text)
    return text
