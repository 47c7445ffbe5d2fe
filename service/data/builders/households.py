"""How is the table of the average home's demand made?

Run with the extra ``tables`` installed:

    python -m service.data.builders.households

Reads the household profile H25 of 2025 (BDEW, quarter-hours, 12 months x 3 kinds of day) out of the package
demandlib 0.2.2, takes hourly means and writes ``service/data/households/demand_shape.json``. Nothing is renormalised
here: as published the profile sums to 994 928 kWh for 2010 without holidays, not to the nominal 1 000 000; the user of
the shape divides by its mean over the year it is used in.
"""

import csv
import json
from importlib.metadata import distribution
from importlib.resources import files
from pathlib import Path

ORIGIN = "BDEW household profile H25 (2025), as carried by the package demandlib 0.2.2"
TARGET = Path(__file__).parent.parent / "households" / "demand_shape.json"
MONTHS = ("Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November",
          "Dezember")  # fmt: skip
KINDS = ("WT", "SA", "FT")  # Monday to Friday, Saturday, Sunday and holidays

# Factor by day of the year, constant first: the profile's published polynomial of fourth degree.
DAY_POLYNOMIAL = (1.24, 0.0021, -7.02e-5, 3.2e-7, -3.92e-10)


def quarter_hours(text: str) -> dict[tuple[str, str], list[float]]:
    """The 96 quarter-hourly energies of each (month, kind of day), in kWh for a nominal 1 GWh a year."""
    rows = list(csv.reader(text.splitlines()))
    heads = list(zip(rows[0][1:], rows[1][1:], strict=True))
    columns = zip(*(map(float, row[1:]) for row in rows[2:]), strict=True)
    return {head: list(column) for head, column in zip(heads, columns, strict=True)}


def hourly_kw(quarters: list[float]) -> list[float]:
    """24 hourly means, in kW, of 96 quarter-hourly energies in kWh: the sum of each four."""
    return [round(sum(quarters[4 * hour : 4 * hour + 4]), 3) for hour in range(24)]


def main() -> None:
    """Write the table."""
    version = distribution("demandlib").version
    if version != "0.2.2":
        raise SystemExit("made for demandlib 0.2.2, found " + version)
    source = files("demandlib").joinpath("bdew", "bdew_data", "h25.csv").read_text(encoding="utf-8")
    columns = quarter_hours(source)
    table = {
        "source": ORIGIN,
        "unit": "kW at 1 GWh a year; only ratios count",
        "kinds_of_day": ["Monday to Friday", "Saturday", "Sunday"],
        "day_polynomial": DAY_POLYNOMIAL,
        "by_month_kind_hour": [[hourly_kw(columns[month, kind]) for kind in KINDS] for month in MONTHS],
    }
    TARGET.write_text(json.dumps(table, ensure_ascii=False, separators=(",", ":")) + "\n", encoding="utf-8")
    print(TARGET, TARGET.stat().st_size, "bytes")


if __name__ == "__main__":
    main()
