"""Which operations on a request make a change of more than one field?"""

from service.core.compatibility.wiring import Wiring
from service.core.model.facts import Array, Setup
from service.core.model.finding import Edit

# A panel alone is joined to nothing; said to be in series, it would be taken to be so with another array.
_ALONE = "parallel"


def put(path: str, value: object) -> Edit:
    """A value at a place, whether or not one stood there."""
    return Edit(op="add", path=path, value=value)


def panels_moved(wiring: Wiring, at: int, to_inputs: tuple[int, ...]) -> tuple[Edit, ...]:
    """All but one panel of array ``at`` on other inputs (from 1), each as an array of its own.

    A mismatch that was taken for panels joined with others goes: one alone differs from nobody.
    """
    array, count = f"/arrays/{at}", len(wiring.setup.arrays)
    alone = [put(f"{array}/count", 1), put(f"{array}/joined", _ALONE)]
    if wiring.assumptions.assumed(f"{array}/mismatch_share"):
        alone.append(put(f"{array}/mismatch_share", 0.0))
    copies = [
        edit
        for k, number in enumerate(to_inputs)
        for edit in (
            Edit(op="copy", path="/arrays/-", source=array),
            put(f"/arrays/{count + k}/input", number),
        )
    ]
    return (*alone, *copies)


def other_panels(setup: Setup, each_w: float) -> tuple[Edit, ...]:
    """Panels of so many watts in place of all stronger ones; nothing else is known of them."""
    return tuple(
        put(f"/arrays/{at}/panel", {"rated_power_w": each_w})
        for at, array in enumerate(setup.arrays)
        if array.panel.rated_power_w > each_w
    )


def arrays_left(setup: Setup, kept: tuple[Array, ...]) -> tuple[Edit, ...]:
    """The last arrays taken away, and the last one that is left with the panels that it keeps."""
    gone = range(len(setup.arrays) - 1, len(kept) - 1, -1)
    removed = tuple(Edit(op="remove", path=f"/arrays/{at}") for at in gone)
    last = len(kept) - 1
    fewer = last >= 0 and kept[last].count < setup.arrays[last].count
    if not fewer:
        return removed
    alone = (put(f"/arrays/{last}/joined", _ALONE),) if kept[last].count == 1 else ()
    return (*removed, put(f"/arrays/{last}/count", kept[last].count), *alone)
