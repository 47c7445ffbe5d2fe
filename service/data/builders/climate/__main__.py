"""Make service/data/climate/climate.npz from its sources: ``python -m service.data.builders.climate``."""

import hashlib
import io
import zipfile
from pathlib import Path

import gsee_climate_data
import numpy as np
from numpy.typing import NDArray

from service.data.builders.climate.air import sea_level_air
from service.data.builders.climate.cells import world
from service.data.builders.climate.grids import reanalysis, satellite, second_grid
from service.data.builders.climate.islands import islands
from service.data.climate.grid import Field, grid_of
from service.data.climate.packing import LN_INDEX_STEP, pack_ln, pack_quantiles
from service.data.climate.recipe import corrected_ln

SOURCES = Path(__file__).parent.parent / "sources"
TABLE = Path(__file__).parent.parent.parent / "climate" / "climate.npz"


def main() -> None:
    """Build, write, and print the size and checksum for SOURCES.md."""
    tables = world()
    cells = reanalysis(gsee_climate_data.pdfs_path(), tables)
    second = second_grid(SOURCES / "gldas21_monthly_w_per_m2.csv.gz", tables)
    sat = satellite(SOURCES / "cmsaf_central_europe_monthly_w_per_m2.csv.gz", tables)
    air = sea_level_air(tables)
    corrected = corrected_ln(cells.index, cells.latitude_deg[:, np.newaxis])
    cell_grid = grid_of(cells.latitude_deg, cells.longitude_deg, 3.0)
    second_index = Field(grid_of(second.latitude_deg, second.longitude_deg, 1.0), np.log(second.index))
    far = islands(cells, corrected, cell_grid, second_index)
    arrays: dict[str, NDArray] = {
        "cell_latitude_deg": cells.latitude_deg.astype(np.int16),
        "cell_longitude_deg": cells.longitude_deg.astype(np.int16),
        "cell_height_m": np.rint(cells.height_m).astype(np.int16),
        "cell_ln_index": np.rint(corrected / LN_INDEX_STEP).astype(np.int16),
        "cell_day_quantiles": pack_quantiles(cells.day_quantiles),
        "second_latitude_x2": np.rint(second.latitude_deg * 2).astype(np.int16),
        "second_longitude_x2": np.rint(second.longitude_deg * 2).astype(np.int16),
        "second_ln_index": pack_ln(np.log(second.index)),
        "satellite_latitude_x5": np.rint(sat.latitude_deg * 5).astype(np.int16),
        "satellite_longitude_x5": np.rint(sat.longitude_deg * 5).astype(np.int16),
        "satellite_ln_index": pack_ln(np.log(sat.index)),
        "island_latitude_x2": far.latitude_x2,
        "island_longitude_x2": far.longitude_x2,
        "island_ln_index": pack_ln(far.ln_index),
        "island_day_quantiles": pack_quantiles(far.day_quantiles),
        "air_latitude_x2": air.latitude_x2,
        "air_longitude_x2": air.longitude_x2,
        "air_sea_level_c_x2": air.celsius_x2,
    }
    TABLE.write_bytes(packed(arrays))
    print(TABLE, TABLE.stat().st_size, "bytes; sha256", hashlib.sha256(TABLE.read_bytes()).hexdigest())


def packed(arrays: dict[str, NDArray]) -> bytes:
    """The arrays as an .npz whose bytes depend on nothing but the arrays: no time stamps, fixed order."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name in sorted(arrays):
            member = io.BytesIO()
            np.lib.format.write_array(member, np.ascontiguousarray(arrays[name]), allow_pickle=False)
            archive.writestr(
                zipfile.ZipInfo(f"{name}.npy", (1980, 1, 1, 0, 0, 0)), member.getvalue(), zipfile.ZIP_DEFLATED, 9
            )
    return out.getvalue()


if __name__ == "__main__":
    main()
