"""Is the output cut off below the stated limit?"""

import csv
import gzip
from pathlib import Path

import numpy as np

from service.core.logbook.diagnosis import clipped_steps
from service.core.model.hours import Bools, Floats

MEASURED = Path(__file__).parents[3] / "reference" / "measured"


def labelled() -> tuple[Floats, Bools]:
    """Ten days of a clipping inverter, labelled by hand (its source: SOURCES.md beside the file)."""
    with gzip.open(MEASURED / "clipped_quarter_hours.csv.gz", "rt", encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines))
    power = np.array([float(row["ac_share_of_max"] or "nan") for row in rows])
    return power, np.array([row["clipped"] == "1" for row in rows])


def f1_of(found: Bools, true: Bools) -> float:
    """Harmonic mean of precision and recall."""
    return 2.0 * float((found & true).sum()) / float(found.sum() + true.sum())


def test_clipped_steps_agree_with_labels_by_hand() -> None:
    """True agreement: F1 0.987, all 39 labelled steps and one more."""
    power, labels = labelled()
    assert f1_of(clipped_steps(power, 900), labels) >= 0.95


def test_a_log_in_another_unit_is_clipped_at_the_same_steps() -> None:
    power, _ = labelled()
    assert (clipped_steps(power * 800.0, 900) == clipped_steps(power, 900)).all()


def test_round_tops_are_not_clipped() -> None:
    day = np.maximum(np.sin(np.linspace(-0.5, np.pi + 0.5, 96)), 0.0)
    power = np.concatenate([day * height for height in np.linspace(500, 700, 20)])
    assert not clipped_steps(power, 900).any()


def test_flat_tops_of_many_days_are_clipped() -> None:
    day = np.maximum(np.sin(np.linspace(-0.5, np.pi + 0.5, 96)), 0.0)
    free = np.concatenate([day * height for height in np.linspace(650, 850, 20)])
    found = clipped_steps(np.minimum(free, 600.0), 900)
    assert f1_of(found, free > 600.0) > 0.97


def test_an_empty_log_is_not_clipped() -> None:
    assert not clipped_steps(np.full(50, np.nan), 900).any()
    assert not clipped_steps(np.zeros(50), 3600).any()
