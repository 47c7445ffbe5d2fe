"""Which way does the facade of slab, walls or house look, square to the panel where nobody told it?"""

from dataclasses import replace

from service.core.completion.complete import Completed
from service.core.completion.defaults import row_for
from service.core.energy import TURNED_DEG
from service.core.model.assumption import Assumption, Assumptions
from service.core.tilt import AT_RAILING_OR_WALL, stands_before_a_facade

SQUARE_TO_PANEL = "square_to_panel"


def with_facade_told(completed: Completed) -> Completed:
    """The same with the facade written down that slab, walls and house were held square to, where nobody told it.

    For what is answered, not for what is computed: without a facade all planes are held square to theirs, so that the
    year of these planes is the same, and a question about others (``tilt_advice``) tells apart whether it was told.

    Args:
        completed: its planes as they stand.

    Returns:
        The facade looks as the panel does; where that was assumed, with its range. Of a panel that stands by itself,
        and whose azimuth was told, up to ``TURNED_DEG`` aside.
    """
    arrays, found = list(completed.setup.arrays), []
    for at, array in enumerate(arrays):
        if not stands_before_a_facade(array) or array.facade_azimuth_deg is not None:
            continue
        pointer, azimuth = f"/arrays/{at}/facade_azimuth_deg", array.plane.azimuth_deg
        of_plane = completed.assumptions.by_pointer.get(f"/arrays/{at}/plane/azimuth_deg")
        low, high = (None, None) if of_plane is None else (of_plane.low, of_plane.high)
        if of_plane is None and array.mount not in AT_RAILING_OR_WALL:
            low, high = (azimuth - TURNED_DEG) % 360.0, (azimuth + TURNED_DEG) % 360.0
        found.append(
            Assumption(
                pointer=pointer,
                value=azimuth,
                code=SQUARE_TO_PANEL,
                source=row_for(pointer, SQUARE_TO_PANEL).source,
                low=low,
                high=high,
            )
        )
        arrays[at] = replace(array, facade_azimuth_deg=azimuth)
    if not found:
        return completed
    return replace(
        completed,
        setup=replace(completed.setup, arrays=tuple(arrays)),
        assumptions=Assumptions.of([*completed.assumptions.by_pointer.values(), *found]),
    )
