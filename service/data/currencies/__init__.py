"""Which codes of currencies are there?"""

from service.data.currencies.table import load_currencies

__all__ = ["load_currencies"]
