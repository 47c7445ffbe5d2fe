"""What do all requests and all answers have in common?

Requests refuse unknown fields; null means absent. Answers are open to growth, hold finite numbers only, and are made
from core values by name.
"""

import marshal
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from math import isfinite
from typing import Annotated, Any, ClassVar, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from service.api.schemas.mistakes import Found

# A leap year's log of quarter-hours (35,136), two years of hourly prices and a plant's hours beside it (26,280),
# another two years of prices for a later period (17,520), and all else of one question; or that log beside five columns
# of a leap year's weather in quarter-hours (175,680).
MOST_VALUES = 220_000


class In(BaseModel):
    """Part of a request."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=False)
    most_values: ClassVar[int] = MOST_VALUES  # of a body, counted by its commas

    def given(self) -> dict[str, Any]:
        """Only what the caller said, in the caller's names; null counts as not said."""
        said: dict[str, Any] = self.__pydantic_serializer__.to_python(self, exclude_unset=True, exclude_none=True)
        return said

    def contradict(self, found: Found) -> None:
        """Note what cannot both hold in a question of this kind alone; most kinds have nothing of their own."""


class Out(BaseModel):
    """Part of an answer. Every field is said each time, but for those that are computed on request only."""

    model_config = ConfigDict(frozen=True, allow_inf_nan=False)

    @classmethod
    def from_core(cls, core: Any, **said: Any) -> Self:
        """An answer from a core value: fields of the same name are taken over, ``said`` adds or replaces."""
        taken = {name: getattr(core, name) for name in _shared(cls, core.__class__) if name not in said}
        made: Self = cls.__pydantic_validator__.validate_python({**taken, **said}, from_attributes=True)
        return made


class Told(Out):
    """Part of many answers: what was worded once is told again, and its text is kept with it (``render/json.py``)."""

    __slots__ = ("written",)


class InParts(Out):
    """An answer, or a large part of one, of which parts are ``Told``: it is written part by part."""


def packed(facts: Mapping[str, Any]) -> bytes | None:
    """Facts as a key that tells 1, 1.0 and true apart; None where one of them is more than plain values.

    ``unpacked`` gives them back. Form 2 knows no references: equal facts are equal bytes.
    """
    try:
        return marshal.dumps(dict(facts), 2)
    except ValueError:
        return None


def unpacked(facts: bytes) -> dict[str, Any]:
    """The facts again."""
    found: dict[str, Any] = marshal.loads(facts)  # noqa: S302 - what ``packed`` made in this process
    return found


@cache
def _shared(answer: type[Out], core: type) -> tuple[str, ...]:
    """The fields of an answer that the core's type has under the same name."""
    names = {f.name for f in fields(core)} if is_dataclass(core) else set()
    return tuple(name for name in answer.model_fields if name in names)


# Made once: an answer asks hundreds of times.
_AS_IT_IS, _OBJECT, _LIST = (str, int, type(None)), (dict, Mapping), (list, tuple)


def _sayable(value: Any) -> Any:
    """Finite numbers of at most four decimals, nested or not; anything else as it is."""
    if isinstance(value, _AS_IT_IS):
        return value
    if isinstance(value, float):
        if not isfinite(value):
            message = "a figure is not finite"
            raise ValueError(message)
        return round(value, 4) + 0.0
    if isinstance(value, _OBJECT):
        return {str(key): _sayable(inner) for key, inner in value.items()}
    if isinstance(value, _LIST):
        return [_sayable(inner) for inner in value]
    return value


Anything = Annotated[Any, AfterValidator(_sayable)]
Facts = Annotated[
    dict[str, Any],
    AfterValidator(_sayable),
    Field(description="The figures and words that the text is made of, by name."),
]
Code = Annotated[str, Field(description="Clients go by it; the vocabulary lists what there is.", max_length=60)]
Text = Annotated[str, Field(description="The same for people.", max_length=2000)]
Pointer = Annotated[str, Field(description="RFC 6901 pointer into the completed request.", max_length=200)]


def absent(value: Any) -> bool:
    """Is an optional part of an answer left out?"""
    return value is None
