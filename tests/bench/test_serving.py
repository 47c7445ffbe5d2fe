"""A server keeps what it was asked lately, and no more than its settings say."""

from pathlib import Path

import pytest

from service.bench.serving import PLACES, report, serving_cost

SMALLEST = Path(__file__).parents[2] / "examples" / "smallest.json"
FIRST, ALL = 100, 300
# A place kept is 1 MB and more: two hundred of them would show. What the allocator scatters is a few.
NOISE_MB = 20


@pytest.fixture(scope="module")
def cost():
    return serving_cost(SMALLEST, repeats=2, places=(FIRST, ALL))


def test_places_asked_one_after_the_other_keep_the_process_bounded(cost):
    first_mb, all_mb = cost.resident_after_places_mb
    assert all_mb - first_mb < NOISE_MB


def test_the_table_tells_the_memory_after_many_places(cost):
    lines = report(cost).splitlines()
    told = [line for line in lines if line.startswith("resident after")]
    assert [float(line.split()[-2]) for line in told] == [round(mb) for mb in cost.resident_after_places_mb]
    assert all(str(places) in line for places, line in zip(PLACES, told, strict=True))
