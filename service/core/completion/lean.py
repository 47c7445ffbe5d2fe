"""How far may what hangs on a rail, wall or fence lean out, where its fixing was not described?"""

from dataclasses import replace

from service.core.completion.complete import Completed
from service.core.completion.defaults import row_for
from service.core.model.assumption import Assumption, Assumptions
from service.core.tilt import MAY_LEAN, TiltWish

_UPRIGHT_DEG = 90.0


def with_lean_told(completed: Completed, wish: TiltWish) -> Completed:
    """The same with the lean written down that bounds the tilt of what hangs, where nobody told it.

    For questions about planes: where the plane is settled or given, nothing else hangs on the lean.

    Args:
        completed: its planes as they stand.
        wish: tilts that it names take the place of any lean.

    Returns:
        Upright is taken, or as far out as a panel leans that stands so already.
    """
    if wish.planes or wish.hinge_tilts_deg or wish.low_tilt_deg is not None or wish.high_tilt_deg is not None:
        return completed
    arrays = list(completed.setup.arrays)
    found = []
    for at, array in enumerate(arrays):
        fixing = array.fixing
        if array.mount not in MAY_LEAN or fixing is None or fixing.leans_out:
            continue
        lean = _UPRIGHT_DEG - array.plane.tilt_deg
        pointer = f"/arrays/{at}/fixing/high_lean_out_deg"
        row = row_for(pointer, "as_it_leans" if lean > 0.0 else "upright_unless_told")
        high = None if row.high is None else max(row.high, lean)
        found.append(Assumption(pointer=pointer, value=lean, code=row.code, source=row.source, low=row.low, high=high))
        arrays[at] = replace(array, fixing=replace(fixing, high_lean_out_deg=lean))
    return Completed(
        setup=replace(completed.setup, arrays=tuple(arrays)),
        assumptions=Assumptions.of([*completed.assumptions.by_pointer.values(), *found]),
    )
