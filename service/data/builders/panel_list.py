"""How is the table of listed panels made?

    python -m service.data.builders.panel_list

Reads the panel list of the California Energy Commission (edition of 3 January 2019, 21,535 entries) as pvlib carries it
and writes ``service/data/panel_list/panel_list.npz``. Entries that differ in nothing but their names become one row.
No name is kept: codes become numbers (``core.identity.codes``), makers are numbered in the order of a hash of their
first word. Cells in series that were counted in halves (two parallel halves of cut cells) are halved.
"""

import csv
import re
from hashlib import blake2s
from importlib.resources import files
from pathlib import Path

import numpy as np

from service.core.identity.codes import MOST_WORDS, is_code, number_of, plain_code
from service.core.identity.typical import typical_rows
from service.core.model.panel_list import LISTED_KINDS, PanelList
from service.data.panel_list import packing

SOURCE = "sam-library-cec-modules-2019-03-05.csv"
TARGET = Path(__file__).parent.parent / "panel_list" / "panel_list.npz"
KINDS = {"Mono-c-Si": "mono", "Multi-c-Si": "poly", "CdTe": "cdte", "CIGS": "cigs", "Thin Film": "thin_film"}
LABEL_SHARE = 0.015  # how far the label's power differs from the product of the listed point
HALVES_BELOW_V = 0.45  # no crystalline cell has so little: the count is of halves


def entries() -> list[dict[str, str]]:
    """The list's entries, without its two rows of units."""
    text = files("pvlib").joinpath("data", SOURCE).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))[2:]


def label_power(name: str, product_w: float) -> float:
    """The power in the entry's name that lies nearest to the listed point; else the point's, to 1 W."""
    numbers = [int(number) for number in re.findall(r"(?<!\d)\d{2,3}(?!\d)", name)]
    near = [number for number in numbers if abs(number / product_w - 1) <= LABEL_SHARE]
    return float(min(near, key=lambda number: abs(number - product_w)) if near else round(product_w))


def cells_of(kind: str, cells: int, voltage_v: float) -> int:
    """Cells in series, halved where they were counted as halves."""
    halves = kind in {"mono", "poly"} and cells % 2 == 0 and voltage_v / cells < HALVES_BELOW_V
    return cells // 2 if halves and 0.55 < 2 * voltage_v / cells < 0.78 else cells


def maker_of(name: str) -> str:
    """The first word of a name as a hash: makers with the same first word count as one."""
    return blake2s(name.split(maxsplit=1)[0].upper().encode(), digest_size=8).hexdigest()


def codes_of(name: str) -> set[int]:
    """The numbers of what may be the code: the last one, two or three words of a name."""
    words = name.split()
    plains = {plain_code("".join(words[-count:])) for count in range(1, min(MOST_WORDS, len(words)) + 1)}
    return {number_of(plain) for plain in plains if is_code(plain)}


def row_of(entry: dict[str, str]) -> tuple[float, ...]:
    """An entry's figures in the order of ``packing.COLUMNS``, without its maker."""
    kind = KINDS[entry["Technology"]]
    voc, isc = float(entry["V_oc_ref"]), float(entry["I_sc_ref"])
    sides = sorted((1000 * float(entry[side]) if entry[side] else 0.0 for side in ("Length", "Width")), reverse=True)
    return (
        label_power(entry["Name"], float(entry["STC"])), voc, isc, float(entry["V_mp_ref"]), float(entry["I_mp_ref"]),
        100 * float(entry["beta_oc"]) / voc, 100 * float(entry["alpha_sc"]) / isc, float(entry["gamma_r"]), *sides,
        cells_of(kind, int(entry["N_s"]), voc), LISTED_KINDS.index(kind),
    )  # fmt: skip


def main() -> None:
    """Write the table."""
    rows: dict[tuple[float, ...], list[str]] = {}
    made = entries()
    makers = {maker: number for number, maker in enumerate(sorted({maker_of(e["Name"]) for e in made}))}
    for entry in made:
        row = tuple(round(value, 3) for value in row_of(entry))
        rows.setdefault((*row, makers[maker_of(entry["Name"])]), []).append(entry["Name"])
    ordered = sorted(rows)
    pairs = sorted({(code, at) for at, row in enumerate(ordered) for name in rows[row] for code in codes_of(name)})
    columns = np.array(ordered, dtype=np.float64).T
    figures = dict(zip(packing.COLUMNS, columns, strict=True))
    listings = np.array([len(rows[row]) for row in ordered])
    table = packing.unpacked(packing.packed(figures, listings, np.ones(len(ordered), bool), pairs))
    packed = packing.packed(figures, listings, typical_rows(table), pairs)
    with TARGET.open("wb") as file:
        np.savez_compressed(file, **packed)
    check(table, len(made))
    print(TARGET, TARGET.stat().st_size, "bytes,", len(ordered), "rows,", int((~typical_rows(table)).sum()), "atypical")


def check(table: PanelList, count: int) -> None:
    """Refuse a table that lost an entry."""
    if int(table.listings.sum()) != count:
        raise SystemExit("entries were lost")


if __name__ == "__main__":
    main()
