"""Does freed memory stay with the process, for the next array of a year's hours, or go back to the system each time?

A year of hours is 70 kB. With the defaults of the GNU C library the top of the heap is given back as soon as 128 kB of
it are free, and fetched again, page by page, for the next array: a fifth of the CPU of an account with a battery. It
also gives each thread that computes a heap of its own, where holes of one are of no use to the other; as Python lets
one of them run at a time, they share the first.
"""

import ctypes

# The numbers of the parameters in malloc.h of the GNU C library (mallopt(3)).
_TRIM_THRESHOLD, _MMAP_THRESHOLD, _ARENA_MAX = -1, -3, -8
KEPT_BYTES = 8 * 2**20
OWN_PAGES_BYTES = 2**20


def keep_freed_memory() -> bool:
    """Let the process keep up to 8 MB that it has freed, in one heap; False where the C library has no such wish."""
    try:
        mallopt = ctypes.CDLL(None).mallopt
    except (AttributeError, OSError, TypeError):  # another C library, or another system
        return False
    wishes = ((_ARENA_MAX, 1), (_TRIM_THRESHOLD, KEPT_BYTES), (_MMAP_THRESHOLD, OWN_PAGES_BYTES))
    return all(bool(mallopt(parameter, value)) for parameter, value in wishes)
