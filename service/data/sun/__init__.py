"""Where does the sun stand on each day of the reference year? A table made beforehand by pvlib."""

from service.data.sun.table import load_sun_days

__all__ = ["load_sun_days"]
