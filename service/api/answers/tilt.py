"""How should it stand, and is moving it by season worth it?"""

from dataclasses import replace

from service.api.answers.question import Question
from service.api.deps import Deps
from service.api.schemas.finding import FindingOut
from service.api.schemas.reading import read_body
from service.api.schemas.requests import TiltIn
from service.api.schemas.tilt import TiltAnswerOut, TiltOut
from service.api.schemas.tilt_wish import TiltWishIn
from service.core.completion import with_lean_told
from service.core.energy import next_to_nothing
from service.core.model.memo import Memo
from service.core.tilt import TiltWish, places_wished, stand_key, stand_of, tilt_advice

_MAP_STEPS_DEG = (1.0, 5.0)
_CHANGES = (2, 4)


def tilt(body: bytes, deps: Deps) -> TiltAnswerOut:
    """The answer of /v1/tilt."""
    return _answer(body, deps, with_map=False)


def tilt_with_map(body: bytes, deps: Deps) -> TiltAnswerOut:
    """The same with a map, whether the request asks for one or not: what a picture needs."""
    return _answer(body, deps, with_map=True)


def _answer(body: bytes, deps: Deps, *, with_map: bool) -> TiltAnswerOut:
    request = read_body(TiltIn, body)
    question = Question.of(request, deps)
    wish = wish_of(request.tilt)
    question = replace(question, completed=with_lean_told(question.completed, wish))
    if with_map and wish.map_steps_deg is None:
        wish = replace(wish, map_steps_deg=_MAP_STEPS_DEG)
    given = [array.get("plane") or {} for array in question.given["arrays"]]
    setup, sky = question.setup, question.sky
    kept = deps.movable if question.weather is None else Memo(1)
    stand = kept.get((sky, stand_key(setup)), lambda: stand_of(setup, sky))
    advice = tilt_advice(setup, sky, given, wish, question.meter, question.ac_w_of, question.as_of, stand)
    told = TiltOut.of(advice, setup, question.facing, question.assumptions)
    found = next_to_nothing(question.energy)
    findings = {"findings": [FindingOut.of(one, 0) for one in found]} if found else {}
    return TiltAnswerOut(tilt=told, **findings, **question.beside(question.chosen_cautions(found)))


def wish_of(asked: TiltWishIn | None) -> TiltWish:
    """What is asked, with what is asked where nothing is said."""
    if asked is None:
        return TiltWish(changes_per_year=_CHANGES)
    steps = None
    if asked.map is not None:
        steps = (asked.map.tilt_step_deg or _MAP_STEPS_DEG[0], asked.map.azimuth_step_deg or _MAP_STEPS_DEG[1])
    return replace(
        places_wished(asked.given()),
        objective=asked.objective or "energy",
        changes_per_year=_CHANGES if asked.changes_per_year is None else tuple(asked.changes_per_year),
        map_steps_deg=steps,
    )
