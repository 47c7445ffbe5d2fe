"""Which of many panels suit which of many inverters?"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from service.api.answers.question import Question, dated, day_of
from service.api.deps import Deps, Stand
from service.api.schemas.array import ArrayIn
from service.api.schemas.assumption import assumptions_out
from service.api.schemas.inverter import InverterIn
from service.api.schemas.matrix import MatrixIn, MatrixOut, PairOut, matrix_text
from service.api.schemas.panel import PanelIn
from service.api.schemas.reading import read_body
from service.api.schemas.requests import AppraisalIn
from service.core.compatibility import Curves, matrix
from service.core.completion import Candidates, complete_candidates
from service.core.model.assumption import Assumption, Assumptions

# Any panel and inverter: only the place and the array around them are taken from their set.
_ANY_PANEL, _ANY_INVERTER = PanelIn(rated_power_w=400), InverterIn(ac_power_w=800)
_OF_THE_ARRAY = ("/arrays/0/mount", "/arrays/0/plane", "/arrays/0/rear_light_share")


def compatibility_matrix(body: bytes, deps: Deps) -> MatrixOut:
    """The answer of /v1/compatibility/matrix."""
    request = read_body(MatrixIn, body)
    as_of = day_of(request.as_of, deps)
    stand = deps.stands.get((request.site.model_dump_json(), as_of), lambda: _stand(request, deps))
    found = complete_candidates(request.given(), stand.setup.arrays[0], as_of, deps.default_tables)
    pairs = matrix(
        stand.setup, stand.assumptions, stand.cells_c, found.panels, found.inverters,
        lambda panel: deps.curves.get(panel, Curves),
    )  # fmt: skip
    told = [*stand.assumptions.by_pointer.values(), *_of_candidates(found)]
    return MatrixOut(
        text=matrix_text(),
        matrix=[PairOut.row(row) for row in pairs],
        assumptions=assumptions_out(Assumptions.of(told)),
        **dated(as_of, deps),
    )


def _stand(request: MatrixIn, deps: Deps) -> Stand:
    """The place, and an array as it is taken to stand there where nobody said how."""
    one_set = AppraisalIn(
        site=request.site, arrays=[ArrayIn(panel=_ANY_PANEL)], inverter=_ANY_INVERTER, as_of=request.as_of
    )
    question = Question.of(one_set, deps)
    around = (
        one for one in question.assumptions.by_pointer.values() if one.pointer.startswith(("/site", *_OF_THE_ARRAY))
    )
    return Stand(
        setup=question.setup,
        assumptions=Assumptions.of(around),
        cells_c=(question.hottest_cell_c[0], question.cool_cell_c[0]),
    )


# What the panel side reads of a panel and of an inverter's first input.
_READ_OF_PANEL = frozenset(
    {
        "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a",
        "cells_in_series", "cell_kind", "voc_coefficient_pct_per_k", "isc_coefficient_pct_per_k",
        "power_coefficient_pct_per_k", "bifaciality_share", "glass", "connector",
    }
)  # fmt: skip
_READ_OF_INVERTER = ("/inverter/input_count", "/inverter/inputs/0/")


def _of_candidates(found: Candidates) -> Iterator[Assumption]:
    """What was assumed of each and the pairs hang on, at its place in the request."""
    for at, (_, assumptions) in enumerate(found.panels):
        read = [one for one in assumptions.by_pointer.values() if one.pointer.rpartition("/")[2] in _READ_OF_PANEL]
        yield from _moved(read, "/arrays/0/panel", f"/panels/{at}")
    for at, (_, assumptions) in enumerate(found.inverters):
        read = [one for one in assumptions.by_pointer.values() if one.pointer.startswith(_READ_OF_INVERTER)]
        yield from _moved(read, "/inverter", f"/inverters/{at}")


def _moved(assumptions: Iterable[Assumption], before: str, now: str) -> Iterable[Assumption]:
    return (replace(one, pointer=now + one.pointer.removeprefix(before)) for one in assumptions)
