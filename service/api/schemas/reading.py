"""How does a body become a request? Bytes -> JSON -> the request's class, every mistake told at once."""

import re
from collections.abc import Callable, Mapping, Sequence
from difflib import get_close_matches
from typing import Any, TypeVar

from pydantic import ValidationError

from service.api.fields import AsOf
from service.api.schemas.base import In
from service.api.schemas.contradictions import contradictions
from service.api.schemas.guide import Guide, Place, guide_of
from service.api.schemas.mistakes import (
    MOST_MISTAKES,
    Mistake,
    RefusedRequest,
    Where,
    pointer_of,
    shown,
)
from service.api.schemas.other_unit import in_other_unit, without_sign
from service.api.schemas.strict_json import Cut, parsed, parsed_if_plain
from service.api.words import say

Request = TypeVar("Request", bound=In)

# pydantic's type of an error -> our code of a mistake.
CODES: Mapping[str, str] = {
    "missing": "missing",
    "extra_forbidden": "unknown_field",
    "float_type": "not_a_number",
    "float_parsing": "not_a_number",
    "finite_number": "out_of_range",
    "greater_than_equal": "out_of_range",
    "less_than_equal": "out_of_range",
    "int_type": "not_whole",
    "int_parsing": "not_whole",
    "int_parsing_size": "out_of_range",
    "int_from_float": "not_whole",
    "string_type": "not_text",
    "string_unicode": "wrong_form",
    "string_pattern_mismatch": "wrong_form",
    "string_too_short": "wrong_length",
    "string_too_long": "wrong_length",
    "literal_error": "not_one_of",
    "bool_type": "not_true_or_false",
    "bool_parsing": "not_true_or_false",
    "list_type": "not_a_list",
    "too_short": "wrong_count",
    "too_long": "wrong_count",
    "model_type": "not_an_object",
    "model_attributes_type": "not_an_object",
    "dict_type": "not_an_object",
    "none_required": "not_served_yet",
    "value_error": "wrong_form",
    "unknown_word": "not_one_of",
}


def read_body(model: type[Request], body: bytes) -> Request:
    """The request that ``body`` holds.

    Raises:
        RefusedRequest: malformed_json, body_too_large, invalid_request or contradiction, with all mistakes found.
    """
    sound = read_if_sound(model, body)
    return read_value(model, value_of(model, body)) if sound is None else sound


def read_if_sound(model: type[Request], body: bytes, wanted: Callable[[Request], bool] | None = None) -> Request | None:
    """The request that ``body`` holds, where nothing is wrong with it; None: ask ``read_body``, which tells all of it.

    To find the words for that takes many times longer than to read. None too where it is not as ``wanted``, told before
    contradictions are looked for.
    """
    value = parsed_if_plain(body, model.most_values)
    if value is None:
        return None
    try:
        request = model.model_validate(value)
    except ValidationError:
        return None
    if wanted is not None and not wanted(request):
        return None
    return None if contradictions(request) else request


def value_of(model: type[In], body: bytes) -> Any:
    """The JSON value that ``body`` holds.

    Raises:
        RefusedRequest: malformed_json or body_too_large, with an example of a whole body; of texts that hold half a
            character with the place and an example of each.
    """
    try:
        return parsed(body, model.most_values)
    except RefusedRequest as error:
        guide = guide_of(model)
        cut: Sequence[Cut] = error.facts.get("cut", ())
        mistakes = [_half_character(guide, one) for one in cut] or [_of_whole_body(guide, error)]
        raise RefusedRequest(error.code, tuple(mistakes), **error.facts) from error


def _of_whole_body(guide: Guide, error: RefusedRequest) -> Mistake:
    return Mistake(
        code=error.code,
        pointer="",
        problem=say("problems", f"mistake.{error.code}"),
        accepted=str(error.facts.get("limit") or say("problems", "accepted.json")),
        example=guide.example(()),
    )


def _half_character(guide: Guide, cut: Cut) -> Mistake:
    """What is accepted at its place; of a key that nobody knows, the whole body."""
    known = cut.place if guide.at(cut.place) else ()
    return Mistake(
        code="malformed_json",
        pointer=pointer_of(cut.place),
        given=shown(cut.text),
        problem=say("problems", "mistake.half_character"),
        accepted=guide.accepted(known) if known else say("problems", "accepted.json"),
        example=guide.example(known),
    )


def read_value(model: type[Request], value: Any, where: Where = "body") -> Request:
    """The request that a parsed JSON value holds; raises as ``read_body`` does."""
    try:
        request = model.model_validate(value)
    except ValidationError as error:
        raise RefusedRequest("invalid_request", _mistakes(guide_of(model), error, value, where)) from None
    found = contradictions(request)
    if found:
        code = "contradiction" if all(one.code == "contradiction" for one in found) else "invalid_request"
        raise RefusedRequest(code, tuple(found))
    return request


_JSON_NUMBER = re.compile(r"-?(0|[1-9][0-9]{0,17})(\.[0-9]{1,17})?([eE][+-]?[0-9]{1,3})?")


def read_query(examples: Mapping[str, str], pairs: Sequence[tuple[str, str]]) -> dict[str, Any]:
    """Query parameters as JSON values: numbers where they look like numbers, each name known and given once.

    Args:
        examples: the names that are known, each with an example of its value.
        pairs: what was sent.

    Raises:
        RefusedRequest: invalid_request, with all mistakes found.
    """
    values: dict[str, Any] = {}
    mistakes = []
    for name, text in pairs[: MOST_MISTAKES * 2]:
        if name not in examples:
            accepted = say("problems", "accepted.one_of", {"words": list(examples)})
            near = get_close_matches(name[:80], examples, 1, 0.0)[0]
            mistakes.append(_query_mistake("unknown_field", name, text, accepted, near))
        elif name in values:
            mistakes.append(_query_mistake("twice", name, text, say("problems", "accepted.once"), examples[name]))
        else:
            values[name] = float(text) if _JSON_NUMBER.fullmatch(text) else text
    if mistakes:
        raise RefusedRequest("invalid_request", tuple(mistakes))
    return values


def _query_mistake(code: str, name: str, given: str, accepted: str, example: str) -> Mistake:
    problem = say("problems", f"mistake.{code}")
    return Mistake(
        code=code, where="query", pointer=shown(name), given=shown(given), problem=problem, accepted=accepted,
        example=example,
    )  # fmt: skip


def _mistakes(guide: Guide, error: ValidationError, value: Any, where: Where) -> tuple[Mistake, ...]:
    found: list[Mistake] = []
    places: set[Place] = set()
    for entry in error.errors(include_url=False, include_context=False):
        place = _place(entry["loc"], value)
        if place in places:
            continue  # the alternatives of one value count as one mistake
        places.add(place)
        found.append(_mistake(guide, entry["type"], place, entry["input"], where))
        if len(found) > MOST_MISTAKES:
            break
    return tuple(found)


def _place(loc: tuple[int | str, ...], value: Any) -> Place:
    """The place in what was sent: without the names that the validator gives to alternatives."""
    place: list[str | int] = []
    for at, part in enumerate(loc):
        if isinstance(value, dict) and (part in value or at == len(loc) - 1):
            place.append(part)
            value = value.get(part)
        elif isinstance(value, list) and isinstance(part, int):
            place.append(part)
            value = value[part] if part < len(value) else None
    return tuple(place)


def _mistake(guide: Guide, kind: str, place: Place, given: Any, where: Where) -> Mistake:
    code = CODES.get(kind, "wrong_value")
    if given is None and place and isinstance(place[-1], str) and code != "unknown_field":
        code = "missing"  # null means absent
    key, facts = code, {}
    accepted, example = guide.accepted(place), guide.example(place)
    if code == "not_a_number":
        key += {str: ".text", bool: ".truth"}.get(type(given), "")
    elif code == "out_of_range" and (turned := without_sign(place, given)):
        key, example = f"out_of_range.minus_sign.{place[-1]}", turned
    elif code == "out_of_range" and (near_number := in_other_unit(place, given)):
        key, facts, example = "out_of_range.near", {"near": near_number}, near_number.split()[0]
    elif code == "not_one_of" and (word := guide.near_word(place, given)):
        key, facts, example = "not_one_of.near", {"near": word}, word
    elif code == "unknown_field":
        accepted, example = guide.accepted(place[:-1]), guide.nearest(place)
        if section := _section_for_gauge(place, guide):
            accepted, example, key = guide.accepted(section), guide.example(section), "unknown_field.gauge"
            facts = {"near": str(section[-1])}
        elif rating := rating_elsewhere(place, guide):
            accepted, example, key = guide.accepted(rating), guide.example(rating), "unknown_field.not_at_stc"
            facts = {"near": str(rating[-1])}
        elif near := guide.near(place):
            facts, key, example = {"near": near[0]}, f"unknown_field.{near[1]}", near[0]
    return Mistake(
        code=code,
        where=where,
        pointer=pointer_of(place) if where == "body" else shown(str(place[-1]) if place else ""),
        given=None if code == "missing" else shown(given),
        problem=say("problems", f"mistake.{key}", facts),
        accepted=accepted,
        example=example,
    )


_ELSEWHERE = re.compile(r"(?:_at)?_(?:noct|nmot|bnpi|bsi|cold|hot|minus_?\d+_?c|(?!25_?c)-?\d+_?c)(?=_|$)")
_SHORT = {"voc": "open_circuit_voltage", "isc": "short_circuit_current", "vmp": "max_power_voltage",
          "imp": "max_power_current", "pmax": "rated_power"}  # fmt: skip


def rating_elsewhere(place: Place, guide: Guide) -> Place | None:
    """Where the rating belongs that an unknown field names at other than standard conditions; None if it does not.

    ``open_circuit_voltage_noct_v`` and ``voc_at_nmot_v`` mean the open-circuit voltage, which is taken at standard test
    conditions only: converted from another one it would be a guess.
    """
    name = str(place[-1]).casefold() if place else ""
    plain = _ELSEWHERE.sub("", name)
    if plain == name:
        return None
    for short, word in _SHORT.items():
        if plain.split("_")[0] == short or plain.startswith(word):
            unit = {"voltage": "v", "current": "a", "power": "w"}[word.split("_")[-1]]
            field = (*place[:-1], f"{word}_{unit}")
            return field if guide.at(field) else None
    return None


def _section_for_gauge(place: Place, guide: Guide) -> Place | None:
    """Where the section belongs that an unknown field names by its gauge (``cable_awg``): its number is no section."""
    name = str(place[-1]).casefold() if place else ""
    if "awg" not in name:
        return None
    fields = ((*place[:-1], f"{of}_mm2") for of in ("cable", "lead") if of in name or name == "awg")
    return next((field for field in fields if guide.at(field)), None)


class _DayIn(In):
    as_of: AsOf | None = None


def choice_in_query(name: str, words: Sequence[str], pairs: Sequence[tuple[str, str]]) -> str | None:
    """The only query parameter of a path that takes one of some words; raises as ``read_query`` does."""
    value = read_query({name: words[0]}, pairs).get(name)
    if value is None or value in words:
        return value
    accepted = say("problems", "accepted.one_of", {"words": list(words)})
    raise RefusedRequest("invalid_request", (_query_mistake("not_one_of", name, str(value), accepted, words[0]),))


def day_in_query(name: str, pairs: Sequence[tuple[str, str]]) -> str | None:
    """The only query parameter of a path that takes a day; raises as ``read_query`` does."""
    values = read_query({name: guide_of(_DayIn).example(("as_of",))}, pairs)
    return read_value(_DayIn, {key: str(value) for key, value in values.items()}, "query").as_of
