"""How do cautions and assumptions read on paper? The same under every question; 72 columns."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from service.api.render.lines import wrapped
from service.api.schemas.advice import CautionOut
from service.api.schemas.assumption import AssumptionOut
from service.core.model.bounds import BOUNDS


def caution_lines(cautions: Iterable[CautionOut], more: int) -> Iterator[str]:
    """Under the step at which each counts, in the order of steps; within one the worst first, as they were chosen.

    ``more``: how many were kept back.
    """
    for step, texts in caution_texts(cautions):
        yield from wrapped(f"{step}:")
        for text in texts:
            yield from wrapped(text, "- ")
    if more:
        yield from wrapped(more_text(more))


def caution_texts(cautions: Iterable[CautionOut]) -> Iterator[tuple[str, list[str]]]:
    """The same as the step and the texts of each."""
    for step, these in groupby(cautions, key=lambda caution: caution.step):
        yield str(step).replace("_", " ").capitalize(), [f"{one.severity.upper()}: {one.text}" for one in these]


def more_text(more: int) -> str:
    """That so many cautions were kept back."""
    return f"There are {more} more, less urgent."


def assumption_lines(assumptions: Iterable[AssumptionOut], currency: str = "money") -> Iterator[str]:
    """Equal ones of several arrays or inputs are told once."""
    for text in assumption_texts(assumptions, currency):
        yield from wrapped(text, "- ")


def assumption_texts(assumptions: Iterable[AssumptionOut], currency: str = "money") -> Iterator[str]:
    """The text of each."""
    told: dict[tuple[str, str, str], int] = {}
    for one in assumptions:
        name, unit = name_and_unit(one.pointer.rpartition("/")[2])
        name = next((f"{part}, {name}" for under, part in _APART.items() if under in one.pointer), name)
        value = _value(one.value)
        key = (
            name,
            f"{value} {unit.replace('money', currency)}" if unit and isinstance(one.value, int | float) else value,
            one.text,
        )
        told[key] = told.get(key, 0) + 1
    for (name, value, text), times in told.items():
        often = f" ({times} times)" if times > 1 else ""
        yield f"{name}{often}: {value}. {text}"


# Parts of a request whose names alone would be taken for those of the set.
_APART = {
    "/storage/": "battery",
    "/other_generation/": "plant on the roof",
    "/side_walls": "beside the panels",
    "/fetching/": "fetching",
    "/price/": "price",
    "/inverter_swap/": "inverter replaced",
}


def name_and_unit(field: str) -> tuple[str, str]:
    """A field's name in words, and its unit: ``coldest_air_c`` as ``coldest air`` and ``C``."""
    unit = BOUNDS[field].unit if field in BOUNDS else ""
    ending = "_" + unit.replace("%", "pct").replace("/", "_per_").lower() if unit else ""
    return field.removesuffix(ending).replace("_", " "), unit


def _value(value: object) -> str:
    if value is None or value == []:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, list):
        return ", ".join(_value(inner) for inner in value)
    return str(value).replace("_", " ") if "/" not in str(value) else str(value)
