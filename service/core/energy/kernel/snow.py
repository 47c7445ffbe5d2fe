"""What does snow leave of the light on many planes?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Singles = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Snow:
    """What it takes of the light on flat panels in each hour, and ones, (2, n): what it leaves is one product."""

    rows: Singles

    @classmethod
    def of(cls, share: Singles) -> "Snow":
        """By the share that it takes on flat panels, (n,)."""
        return cls(np.stack((share, np.ones_like(share))))

    @property
    def share(self) -> Singles:
        """On flat panels, (n,)."""
        share: Singles = self.rows[0]
        return share

    def leaves(self, up: Singles) -> Singles:
        """The share left on planes, (m, n), by the cosines of their tilts, (m,); as ``sky.stays_share`` has it."""
        stays = np.ones((up.size, 2), np.float32)
        stays[:, 0] = -up * up
        return np.asarray(stays @ self.rows)
