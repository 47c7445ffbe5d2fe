"""What is said of a field?"""

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Says:
    """The description of a field and one example of its value."""

    description: str
    example: Any
