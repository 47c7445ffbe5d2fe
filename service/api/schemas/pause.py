"""How are long lists read without looking for garbage meanwhile?

A hundred thousand rows are as many lists, none of them in a circle; looking at all of them again and again took thrice
the time of reading them.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_garbage_looked_for() -> Iterator[None]:
    """No collection of circles within; what is not in a circle goes as ever. Whoever found it on puts it on again."""
    on = gc.isenabled()
    if on:
        gc.disable()
    try:
        yield
    finally:
        if on:
            gc.enable()
