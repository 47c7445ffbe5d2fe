"""How many are on offer where the text tells of more: some are sold, left, fitted or kept?"""

from service.core.adverts.kept_of import left_after_keeping, spare_of
from service.core.adverts.left_of import left_of_counted
from service.core.adverts.of_these import left_of_these
from service.core.adverts.only_some import only_some
from service.core.adverts.parts import of_more
from service.core.adverts.scene import Scene
from service.core.adverts.sold_of import left_after_sale


def offered_of_more(scene: Scene, kind: str) -> int | None:
    """The pieces on offer, or None where the text tells of no more than those."""
    offered = of_more(scene)
    if offered is not None or kind == "set":
        return offered
    if "keeps" in scene.by_what:
        offered = left_after_keeping(scene)
    if offered is None:
        offered = spare_of(scene)
    if offered is not None:
        return offered
    if "sold" in scene.by_what:
        offered = left_after_sale(scene)
    if offered is None:
        offered = left_of_counted(scene)
    if offered is None:
        offered = left_of_these(scene)
    return only_some(scene) if offered is None else offered
