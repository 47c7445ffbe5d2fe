"""How does an answer look as JSON?"""

from pydantic import BaseModel


def as_json(answer: BaseModel) -> bytes:
    """UTF-8 JSON of an answer, in the order of its fields. Numbers are finite: the answer's class has seen to it."""
    return answer.__pydantic_serializer__.to_json(answer, by_alias=True)
