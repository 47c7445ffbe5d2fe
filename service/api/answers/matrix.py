"""Which of many panels suit which of many inverters?"""

from service.api.answers.candidates import at_place, columns_of, contradicting, read_candidates, rows_of
from service.api.answers.question import Question, dated, day_of
from service.api.deps import Deps, Stand
from service.api.schemas.array import ArrayIn
from service.api.schemas.assumption import assumptions_out
from service.api.schemas.inverter import InverterIn
from service.api.schemas.matrix import MatrixIn, MatrixOut, PairOut, matrix_text
from service.api.schemas.panel import PanelIn
from service.api.schemas.reading import value_of
from service.api.schemas.requests import AppraisalIn
from service.core.compatibility import matrix
from service.core.completion import INVERTER, PANEL
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions

# Any panel and inverter: only the place and the array around them are taken from their set.
_ANY_PANEL, _ANY_INVERTER = PanelIn(rated_power_w=400), InverterIn(ac_power_w=800)
_OF_THE_ARRAY = ("/arrays/0/mount", "/arrays/0/plane", "/arrays/0/rear_light_share")


def compatibility_matrix(body: bytes, deps: Deps) -> MatrixOut:
    """The answer of /v1/compatibility/matrix."""
    value = value_of(MatrixIn, body)
    request = read_candidates(value, deps)
    as_of = day_of(request.as_of, deps)
    stand = deps.stands.get((request.site.model_dump_json(), as_of), lambda: _stand(request, deps))
    try:
        rows, columns = rows_of(request, stand, as_of, deps), columns_of(request, deps)
    except ContradictionError as error:
        raise contradicting(value, deps) from error
    pairs = matrix([row for row, _ in rows], [column for column, _ in columns])
    return MatrixOut(
        text=matrix_text(),
        matrix=[PairOut.row(row) for row in pairs],
        assumptions=[
            *assumptions_out(stand.assumptions),
            *at_place(rows, "panels", PANEL),
            *at_place(columns, "inverters", INVERTER),
        ],
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
