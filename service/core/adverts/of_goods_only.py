"""Words that many things share, of the goods alone: "never needed" (a warranty, too), "never tried" (posting, too).

They count where they lead back to the goods or have a clause of their own; that goods were not needed also where their
sentence tells otherwise that they are spare.
"""

from service.core.adverts.broken_goods import is_of_goods
from service.core.adverts.scene import Scene

_UNUSED = "unused"
_MEANING = (("not_needed", _UNUSED), ("untried", "q:untested"))


def add_of_goods_only(scene: Scene) -> None:
    """Adds what such words mean of the goods."""
    for word, meaning in _MEANING:
        if word not in scene.by_what:
            continue
        spare = {scene.items[at].sentence for at in scene.by_what.get(_UNUSED, ())} if meaning == _UNUSED else set()
        found = [at for at in scene.by_what[word] if scene.items[at].sentence in spare or is_of_goods(scene, at)]
        if found:
            scene.by_what[meaning] = sorted((*scene.by_what.get(meaning, ()), *found))
