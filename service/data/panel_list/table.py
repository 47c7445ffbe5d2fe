"""How is the table of listed panels read?"""

from importlib.resources import files

import numpy as np

from service.core.model.panel_list import PanelList
from service.data.panel_list.packing import unpacked

TABLE = "panel_list.npz"


def load_panel_list() -> PanelList:
    """Read the packaged list, rows by rising rated power."""
    with files(__package__).joinpath(TABLE).open("rb") as file, np.load(file, allow_pickle=False) as arrays:
        return unpacked(arrays)
