"""Does the second-year letter agree with the causes beside it?"""

import pytest

from service.api.schemas.logbook_out import SecondYearOut, SuspectOut
from service.core.logbook import SecondYear, Suspect


def letter(what: str, code: str, sureness: float) -> str:
    found = SecondYear(
        what=what, change_share=-0.04, doubt_share=0.15, before_kwh=400.0, after_kwh=384.0, months=(), lowest=None,
        first_day=20_200, last_day=20_500,
    )  # fmt: skip
    cause = Suspect(code=code, sureness_share=sureness, effect_share=0.07, evidence={})
    return SecondYearOut.of(found, [SuspectOut.of(cause, None, 400.0, 0.3)]).text


@pytest.mark.parametrize("what", ["about_the_same", "cannot_tell"])
def test_a_shadow_that_has_grown_is_in_the_letter_though_the_sum_hides_it(what: str) -> None:
    told = letter(what, "shade_grown", 0.98)
    assert "a shadow that has grown since last year" in told
    assert "gave about the same" not in told


@pytest.mark.parametrize(("code", "sureness"), [("shade_grown", 0.1), ("grid_trips", 0.98)])
def test_a_cause_that_is_vague_or_no_change_is_not_in_it(code: str, sureness: float) -> None:
    assert "gave about the same" in letter("about_the_same", code, sureness)
