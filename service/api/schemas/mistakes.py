"""What is wrong with a request, where, and what would be accepted? Collected, so that all is told at once."""

import json
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal

from service.api.words import say
from service.core.errors import ContradictionError

Where = Literal["body", "query", "header", "path"]
NOTHING = "null"  # the example where only leaving a part out is accepted
LONGEST_GIVEN = 200
MOST_MISTAKES = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One mistake. ``pointer`` is RFC 6901 in a body, else the bare name; ``problem`` is a phrase."""

    code: str
    where: Where = "body"
    pointer: str
    given: str | None = None
    problem: str
    accepted: str = ""
    example: str | None = None


class RefusedRequest(Exception):  # noqa: N818 - a refusal is what it is
    """A request that cannot be answered as it stands: the problem's code, its facts, and the single mistakes."""

    def __init__(self, code: str, mistakes: tuple[Mistake, ...] = (), **facts: Any) -> None:
        """Keep the code of the problem, the mistakes, and the facts that its sentence needs."""
        super().__init__(code)
        self.code = code
        self.mistakes = mistakes
        self.facts: MappingProxyType[str, Any] = MappingProxyType(facts)


def mistake_of(error: ContradictionError) -> Mistake:
    """The mistake that a contradiction found by the core is."""
    return Mistake(
        code=error.code,
        pointer=error.pointer,
        given=None if error.given is None else shown(error.given),
        problem=error.problem,
        accepted=error.accepted,
        example=None if error.example is None else as_example(error.example),
    )


@dataclass(slots=True)
class Found:
    """A list of mistakes in the making."""

    mistakes: list[Mistake] = field(default_factory=list)

    def contradiction(self, pointer: str, given: Any, why: str, accepted: str, example: Any, **facts: Any) -> None:
        """Note that the value at ``pointer`` does not go with another one; ``example``, put there, does."""
        self.mistakes.append(
            Mistake(
                code="contradiction",
                pointer=pointer,
                given=shown(given),
                problem=say("problems", f"mistake.contradiction.{why}", facts),
                accepted=accepted,
                example=as_example(example),
            )
        )


def shown(value: Any) -> str:
    """A value as text for people: text as it is, all else as JSON; control characters out, cut at 200 characters."""
    text = value if isinstance(value, str) else json.dumps(_opened(value), ensure_ascii=False, default=str)
    printable = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text[: LONGEST_GIVEN + 1])
    return printable if len(printable) <= LONGEST_GIVEN else printable[: LONGEST_GIVEN - 1] + "…"


def as_example(value: Any) -> str:
    """An example as it is shown: text as it is, all else as JSON, whole, so that it can be put in place."""
    return value if isinstance(value, str) else json.dumps(_without_halves(value), ensure_ascii=False)


def _without_halves(value: Any) -> Any:
    """Whole numbers without a decimal point."""
    if isinstance(value, list):
        return [_without_halves(item) for item in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _opened(value: Any, most: int = 40) -> Any:
    """The beginning of a long list or object: enough for what is shown, cheap whatever was sent."""
    if isinstance(value, list):
        return [_opened(item, 5) for item in value[:most]]
    if isinstance(value, dict):
        return {str(key)[:LONGEST_GIVEN]: _opened(value[key], 5) for key in list(value)[:most]}
    if isinstance(value, float) and value.is_integer():
        return int(value) if abs(value) < 1e15 else value
    return value[: LONGEST_GIVEN + 1] if isinstance(value, str) else value


def pointer_of(parts: tuple[str | int, ...]) -> str:
    """RFC 6901 pointer to a place in the body; overlong keys are cut."""
    text = "".join("/" + shown(str(part)).replace("~", "~0").replace("/", "~1") for part in parts)
    return text if len(text) <= LONGEST_GIVEN else text[: LONGEST_GIVEN - 1] + "…"
