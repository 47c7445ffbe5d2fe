"""Which amounts are no price of what is sold?"""

from service.core.adverts.beside_price import leave_out_amounts_beside
from service.core.adverts.edited_prices import leave_out_before_edit
from service.core.adverts.free_from import leave_out_free_from
from service.core.adverts.old_prices import leave_out_old_prices
from service.core.adverts.other_amounts import leave_out_other_amounts
from service.core.adverts.other_sending import leave_out_other_sending
from service.core.adverts.others_prices import leave_out_others_prices
from service.core.adverts.price_spans import leave_out_spans
from service.core.adverts.priced_apart import ONE_OF_TWO, leave_out_the_others
from service.core.adverts.scene import Scene


def leave_out_no_prices(scene: Scene, kind: str) -> None:
    """They are no amounts of the scene any more."""
    leave_out_other_sending(scene)
    leave_out_other_amounts(scene)
    leave_out_amounts_beside(scene)
    leave_out_others_prices(scene)
    leave_out_spans(scene)
    if kind in ONE_OF_TWO:
        leave_out_the_others(scene, kind)
    leave_out_old_prices(scene)
    leave_out_before_edit(scene)
    if "delivered" in scene.by_what or "giveaway" in scene.by_what:
        leave_out_free_from(scene)
