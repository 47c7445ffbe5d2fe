"""Which panels stood on the public list until 2019, and with which ratings?"""

from service.data.panel_list.table import load_panel_list

__all__ = ["load_panel_list"]
