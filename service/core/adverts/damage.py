"""Which words for damage are meant of the goods: no denied ones, none of other things, those of an exception?"""

from collections.abc import Set

from service.core.adverts.broken_goods import leave_out_none_broken
from service.core.adverts.damage_of_others import leave_out_damage_of_others
from service.core.adverts.denials import leave_out_denied
from service.core.adverts.everyday_damage import add_everyday_damage
from service.core.adverts.exceptions import tell_exceptions
from service.core.adverts.failing import add_failing
from service.core.adverts.no_current import add_no_current
from service.core.adverts.no_defects import leave_out_no_defects
from service.core.adverts.other_broken import BROKEN, leave_out_other_broken
from service.core.adverts.scene import Scene
from service.core.adverts.whose import of_the_goods

_MAY_BE_NONE = ("d:cracked_glass", "d:dead", "s:broken", "d:hail_damage")


def damage_of_the_goods(scene: Scene, kind: str, faults: Set[str]) -> None:
    """Only such words stay among the ``faults``, and everyday ones are added."""
    if "except" in scene.by_what:
        tell_exceptions(scene, faults, kind)
    leave_out_damage_of_others(scene, faults)
    leave_out_denied(scene, faults)
    if scene.tells(*_MAY_BE_NONE):
        leave_out_no_defects(scene)
        leave_out_none_broken(scene)
    add_everyday_damage(scene, kind)
    add_failing(scene, kind)
    add_no_current(scene, kind)
    if scene.tells(*BROKEN):
        leave_out_other_broken(scene)
    if "d:dead" in scene.by_what:
        scene.by_what["d:dead"] = of_the_goods(scene, scene.by_what["d:dead"], kind)
