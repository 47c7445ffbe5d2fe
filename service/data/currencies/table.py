"""How is the list of currencies read?"""

import json
from functools import cache
from importlib.resources import files

TABLE = "currencies.json"


@cache
def load_currencies() -> tuple[str, ...]:
    """The active codes of ISO 4217 in which a price can stand, in capitals, in the order of the alphabet.

    Metals, units of account between banks, and the codes for tests and for no currency are left out: those have no
    minor unit in the standard's list.
    """
    raw = json.loads(files(__package__).joinpath(TABLE).read_text(encoding="utf-8"))
    return tuple(raw["codes"])
