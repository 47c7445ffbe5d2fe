"""Does the process keep what it freed, so that the next year of hours needs no new pages from the system?"""

import platform
import subprocess
import sys

import pytest

# Several arrays of a year at once, freed together: the top of the heap falls by more than it does by default.
COUNTED = """
import resource, sys
import numpy as np
from service.memory import keep_freed_memory
print(keep_freed_memory() if sys.argv[1] == "kept" else None)
def year():
    several = [np.ones(8760) for _ in range(8)]
    return sum(one[0] for one in several)
year()
before = resource.getrusage(resource.RUSAGE_SELF).ru_minflt
for _ in range(200):
    year()
print(resource.getrusage(resource.RUSAGE_SELF).ru_minflt - before)
"""


def faults(wish: str) -> tuple[str, int]:
    run = subprocess.run([sys.executable, "-c", COUNTED, wish], capture_output=True, text=True, check=True)
    said, count = run.stdout.split()
    return said, int(count)


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="only the GNU C library is asked")
def test_freed_arrays_of_a_year_are_used_again_without_new_pages() -> None:
    said, count = faults("kept")
    assert said == "True"
    assert count < 200, "less than a page a year of hours"
    assert faults("as it is")[1] > 10 * max(count, 1)
