"""What is taken of an advert where neither it nor the caller says?"""

from service.core.completion.rows import NEUTRAL, TRADE, Row

# In euro; what is asked in another currency is turned at a rough rate (``core/shortlist/sending.py``).
ADVERT_ROWS: tuple[Row, ...] = (
    Row(pointer="/adverts/*/delivery_cost", code="sending_parcel", value=12.0, unit="EUR", low=6.0, high=25.0,
        source=f"an inverter as one parcel within the country: {TRADE}"),
    Row(pointer="/adverts/*/delivery_cost", code="sending_pallet", value=80.0, unit="EUR", low=40.0, high=160.0,
        source=f"panels on one pallet within the country, however many: {TRADE}"),
    Row(pointer="/adverts/*/distance_km", code="way_not_counted", value=0.0, unit="km", source=NEUTRAL),
)  # fmt: skip
