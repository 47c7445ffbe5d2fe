"""How is the table of the weights of a diagnosis read?

A row is a quantity in a case: what is usual, its spread, and a weight by cause. The row ``constant`` has the scores
where all is usual, and under ``usual`` the sureness from which on an alarm is given.
"""

import csv
from importlib.resources import files

import numpy as np

from service.core.model.cause_weights import CaseWeights, CauseWeights

TABLE = "weights.csv"
CONSTANT = "constant"
_LEADING = ("case", "quantity", "usual", "spread")


def load_cause_weights() -> CauseWeights:
    """Read the packaged table."""
    text = files(__package__).joinpath(TABLE).read_text(encoding="utf-8")
    header, *rows = list(csv.reader(text.splitlines()))
    causes = tuple(header[len(_LEADING) :])
    cases = {name: _case([row for row in rows if row[0] == name]) for name in dict.fromkeys(row[0] for row in rows)}
    return CauseWeights(causes=causes, cases=cases)


def _case(rows: list[list[str]]) -> CaseWeights:
    constant = next(row for row in rows if row[1] == CONSTANT)
    others = [row for row in rows if row[1] != CONSTANT]
    values = np.array([[float(cell) for cell in row[2:]] for row in others])
    return CaseWeights(
        quantities=tuple(row[1] for row in others),
        usual=values[:, 0],
        spread=values[:, 1],
        weight=values[:, 2:],
        constant=np.array([float(cell) for cell in constant[4:]]),
        alarm_from_share=float(constant[2]),
    )
