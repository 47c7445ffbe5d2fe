"""What is taken of an advert where neither it nor the caller says?"""

from service.core.completion.rows import NEUTRAL, TRADE, WARY, Row

# In euro; what is asked in another currency is turned at a rough rate (``core/shortlist/getting.py``).
ADVERT_ROWS: tuple[Row, ...] = (
    Row(pointer="/adverts/*/delivery_cost", code="sending_parcel", value=12.0, unit="EUR", low=6.0, high=25.0,
        source=f"an inverter as one parcel within the country: {TRADE}"),
    Row(pointer="/adverts/*/delivery_cost", code="sending_pallet", value=80.0, unit="EUR", low=40.0, high=160.0,
        source=f"panels on one pallet within the country, however many: {TRADE}"),
    Row(pointer="/adverts/*/delivery_cost", code="getting_parcel", value=12.0, unit="EUR", low=1.0, high=25.0,
        source=f"as one that has to be sent; less where it can be fetched nearby: {TRADE}"),
    Row(pointer="/adverts/*/delivery_cost", code="getting_pallet", value=80.0, unit="EUR", low=2.0, high=160.0,
        source=f"as one that has to be sent; less where it can be fetched nearby: {TRADE}"),
    Row(pointer="/adverts/*/distance_km", code="usual_way", value=30.0, unit="km", low=3.0, high=100.0,
        source="our own judgement of how far people drive for such goods"),
    Row(pointer="/adverts/*/distance_km", code="way_not_counted", value=0.0, unit="km", source=NEUTRAL),
    Row(pointer="/adverts/*/panel_count", code="one_panel_in_set", value=1, source=WARY),
    Row(pointer="/adverts/*/reading/price/basis", code="price_of_one", value="each", source=WARY),
    Row(pointer="/adverts/*/reading/quantity_available", code="one_in_lot", value=1, source=WARY),
    Row(pointer="/adverts/*/reading/quantity_available", code="as_many_as_wanted", value=4,
        source="our own choice: the most panels of a set; who has one piece mostly says so"),
    Row(pointer="/adverts/*/reading/least_quantity", code="two_at_least", value=2, source=NEUTRAL),
    Row(pointer="/adverts/*/reading/inverter/input_count", code="inputs_not_told",
        rule="as of `/inverter/input_count`", source="as inverters of this power mostly have"),
)  # fmt: skip
