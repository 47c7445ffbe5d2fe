"""How is the table of cells with one time zone made? Run ``python -m service.data.builders.time_zones``.

Every edge of every boundary of the package tzfpy marks the cells that it crosses. Between marked cells of a row one
zone holds, or several do: one question to the package for each such run tells.
"""

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import tzfpy
from numpy.typing import NDArray

from service.data.places.cells import CELLS_A_DEGREE, COLUMNS, ROWS, TABLE

TARGET = Path(__file__).parent.parent / "places" / TABLE
Floats = NDArray[np.float64]


def main() -> None:
    """Write the table; print the size and checksum for SOURCES.md."""
    marked = np.zeros((ROWS, COLUMNS), dtype=bool)
    for ring in _rings():
        rows, columns = cells_crossed(ring)
        marked[rows, columns] = True
    names: dict[str, int] = {"": 0}
    runs: list[tuple[int, int]] = []
    row_starts = [0]
    for row in range(ROWS):
        runs += _runs(marked[row], row, names)
        row_starts.append(len(runs))
    columns_of_runs, zones = np.array(runs, dtype=np.uint16).T
    np.savez_compressed(
        TARGET,
        names=np.frombuffer("\n".join(list(names)[1:]).encode("ascii"), dtype=np.uint8),
        row_starts=np.array(row_starts, dtype=np.int32),
        first_columns=columns_of_runs,
        zones=zones,
    )
    digest = hashlib.sha256(TARGET.read_bytes()).hexdigest()
    print(TARGET, TARGET.stat().st_size, "bytes of", tzfpy.data_version(), "sha256", digest)


def _rings() -> Iterator[Floats]:
    """Every closed line of every boundary, (n, 2): longitude and latitude, degrees."""
    for name in tzfpy.timezonenames():
        for feature in json.loads(tzfpy.get_tz_polygon_geojson(name))["features"]:
            shape = feature["geometry"]
            polygons = shape["coordinates"] if shape["type"] == "MultiPolygon" else [shape["coordinates"]]
            for polygon in polygons:
                for ring in polygon:
                    yield np.array(ring, dtype=np.float64)[:, :2]


def cells_crossed(ring: Floats) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Rows and columns of the cells that the edges of a line cross.

    Each edge is cut where it crosses the lines between cells; the middle of each piece lies in the cell of the piece.
    """
    x, y = (ring[:, 0] + 180.0) * CELLS_A_DEGREE, (90.0 - ring[:, 1]) * CELLS_A_DEGREE
    edges = np.arange(x.size - 1)
    cut_edges, cuts = [edges, edges], [np.zeros(edges.size), np.ones(edges.size)]
    for along in (x, y):
        begin, end = along[:-1], along[1:]
        first = np.ceil(np.minimum(begin, end))
        count = np.maximum(np.floor(np.maximum(begin, end)) - first + 1, 0).astype(np.intp)
        edge = np.repeat(edges, count)
        line = first[edge] + np.arange(edge.size) - np.repeat(np.cumsum(count) - count, count)
        run = (end - begin)[edge]
        crosses = run != 0
        cut_edges.append(edge[crosses])
        cuts.append((line - begin[edge])[crosses] / run[crosses])
    edge, cut = np.concatenate(cut_edges), np.concatenate(cuts)
    order = np.lexsort((cut, edge))
    edge, cut = edge[order], cut[order]
    pieces = edge[1:] == edge[:-1]
    middle, edge = ((cut[1:] + cut[:-1]) / 2.0)[pieces], edge[1:][pieces]
    columns = np.floor(x[edge] + middle * np.diff(x)[edge]).astype(np.intp) % COLUMNS
    rows = np.clip(np.floor(y[edge] + middle * np.diff(y)[edge]).astype(np.intp), 0, ROWS - 1)
    return rows, columns


def _runs(marked: NDArray[np.bool_], row: int, names: dict[str, int]) -> Iterator[tuple[int, int]]:
    """First column and zone of each run of a row; new zones are added to ``names``."""
    last = None
    for column in (0, *(np.flatnonzero(np.diff(marked)) + 1).tolist()):
        zone = 0
        if not marked[column]:
            claim = tzfpy.get_tzs((column + 0.5) / CELLS_A_DEGREE - 180.0, 90.0 - (row + 0.5) / CELLS_A_DEGREE)
            zone = names.setdefault(claim[0], len(names)) if len(claim) == 1 else 0
        if zone != last:
            yield column, zone
        last = zone


if __name__ == "__main__":
    main()
