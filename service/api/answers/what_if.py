"""What would the set give with one thing changed?"""

from collections.abc import Sequence

from service.api.answers.question import Question
from service.api.schemas.what_if import WhatIfOut, WhatIfReasonOut
from service.core.appraisal import what_ifs
from service.core.compatibility import Compatibility, check
from service.core.energy import ArrayConditions
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup


def what_if(question: Question) -> list[WhatIfOut] | None:
    """The changes that the set admits; None where nobody asked, or where there is no whole year."""
    if "what_if" not in question.include or _part_of_a_year(question):
        return None

    def checked(setup: Setup, assumptions: Assumptions, cells: Sequence[ArrayConditions]) -> Compatibility:
        hottest, cool = ([getattr(one, name) for one in cells] for name in ("hottest_cell_c", "cool_cell_c"))
        return check(
            setup, assumptions, tuple(hottest), question.card, question.as_of, question.curves, tuple(cool),
            mending=False,
        )  # fmt: skip

    found = what_ifs(
        question.setup, question.assumptions, question.sky, question.direct, question.meter, checked, question.lights
    )  # fmt: skip
    year_kwh = question.energy.year_kwh.middle or 0.0
    used_kwh = question.use.self_used_kwh.middle or 0.0
    return [WhatIfOut.of(one, year_kwh, used_kwh) for one in found]


def nothing_because(question: Question, told: list[WhatIfOut] | None) -> WhatIfReasonOut | None:
    """Why none is told, where somebody asked."""
    if told or "what_if" not in question.include:
        return None
    return WhatIfReasonOut.of("part_of_a_year" if _part_of_a_year(question) else "no_such_change")


def _part_of_a_year(question: Question) -> bool:
    return question.weather is not None and not question.weather.whole_year
