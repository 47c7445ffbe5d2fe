"""What should be said beside a best plane: of what holds it, of a railing told against the sun, of spreading?"""

from collections.abc import Iterator, Mapping

from service.api.schemas.base import Code, Out, Text
from service.api.words import say
from service.core.model.assumption import Assumptions
from service.core.tilt import Facing, TiltAdvice, YearAtHome

# So much more than the best same plane for all is told.
_WORTH_SPREADING = 0.01


class TiltNoteOut(Out):
    """What bounds the planes, and what would tell more."""

    code: Code
    text: Text


def notes_of(advice: TiltAdvice, facing: Facing | None, assumptions: Assumptions) -> Iterator[TiltNoteOut]:
    """What was assumed of a facade or a fixing is told with the note; a fixing told to let nothing lean needs none."""
    assumed = {one.pointer.rpartition("/")[2]: one.code for one in assumptions.by_pointer.values()}
    for code in advice.notes:
        if code == "walls_stay" and "facade_azimuth_deg" in assumed:
            yield _note("facade_assumed")
        elif code != "upright_unless_told" or assumed.get("high_lean_out_deg") == code:
            yield _note(code)
    railing = advice.railing_azimuth_deg
    if facing is not None and railing is not None and not facing.admits(railing):
        low, high = facing.low_azimuth_deg, facing.high_azimuth_deg
        yield _note("told_against_sun", {"told": railing, "low": low, "high": high})
    apart, together = (wanted(one, advice.objective) for one in (advice.apart_brings, advice.best_brings))
    if apart >= (1.0 + _WORTH_SPREADING) * together > 0.0:
        yield _note("spread_brings_more", {"more": 100.0 * (apart / together - 1.0)})


def _note(code: str, facts: Mapping[str, float] | None = None) -> TiltNoteOut:
    return TiltNoteOut(code=code, text=say("tilt", f"note.{code}", facts))


def wanted(brings: YearAtHome, objective: str) -> float:
    """What planes bring of what was wished for."""
    return {"energy": brings.year_kwh, "self_used": brings.self_used_kwh, "money": brings.saving or 0.0}[objective]
