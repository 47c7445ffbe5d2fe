"""How is a change of the request answered, so that a program can make it and ask again?"""

from typing import Annotated, Any

from pydantic import Field

from service.api.schemas.base import Anything
from service.core.model.finding import Edit, Fact

Patch = Annotated[
    list[dict[str, Anything]],
    Field(
        description="The change as operations of RFC 6902 (JSON Patch) on the completed request (`used`): what comes "
        "out can be sent. Empty where no field of a request can hold it: somebody has to be asked, or a thing has to "
        "be fitted that this service is not told of. A panel of which only the watts are put there is another panel: "
        "send the figures on its label.",
        max_length=60,
    ),
]


def patch_of(pointer: str | None, new_value: Fact, edits: tuple[Edit, ...]) -> list[dict[str, Any]]:
    """The operations: those of a change of several fields, or the one at the pointer."""
    if edits:
        return [_operation(edit) for edit in edits]
    return [] if pointer is None else [{"op": "add", "path": pointer, "value": new_value}]


def _operation(edit: Edit) -> dict[str, Any]:
    if edit.op == "copy":
        return {"op": "copy", "from": edit.source, "path": edit.path}
    if edit.op == "remove":
        return {"op": "remove", "path": edit.path}
    return {"op": edit.op, "path": edit.path, "value": edit.value}
