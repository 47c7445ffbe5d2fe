"""What does a household pay for a kWh, by area and period, and what was paid for one sent out?"""

from service.data.prices.table import load_prices

__all__ = ["load_prices"]
