"""How is the table of cautions read?"""

import json
from importlib.resources import files
from typing import Any

from service.core.model.caution import Caution, Need

TABLE = "cautions.json"


def load_cautions() -> tuple[Caution, ...]:
    """Read the packaged table of cautions, in the table's order."""
    rows = json.loads(files(__package__).joinpath(TABLE).read_text(encoding="utf-8"))
    return tuple(_caution(row) for row in rows)


def _caution(row: dict[str, Any]) -> Caution:
    needs = tuple(
        Need(
            test=need["test"],
            pointer=need.get("pointer"),
            finding=need.get("finding"),
            value=tuple(value) if isinstance(value := need.get("value"), list) else value,
        )
        for need in row["needs"]
    )
    return Caution(
        code=row["code"],
        severity=row["severity"],
        step=row["step"],
        rank=row["rank"],
        always=row["always"],
        shown_if_open=row["if_open"] == "show",
        needs=needs,
        topic=row["topic"],
        source=row["source"],
        status=row["status"],
    )
