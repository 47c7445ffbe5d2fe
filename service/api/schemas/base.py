"""What do all requests and all answers have in common?

Requests refuse unknown fields; null means absent. Answers are open to growth, hold finite numbers only, and are made
from core values by name.
"""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any, Self

from pydantic import BaseModel, ConfigDict


class In(BaseModel):
    """Part of a request."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=False)

    def given(self) -> dict[str, Any]:
        """Only what the caller said, in the caller's names; null counts as not said."""
        return self.model_dump(exclude_unset=True, exclude_none=True)


class Out(BaseModel):
    """Part of an answer. Every field is said each time, but for those that are computed on request only."""

    model_config = ConfigDict(frozen=True, allow_inf_nan=False)

    @classmethod
    def from_core(cls, core: Any, **said: Any) -> Self:
        """An answer from a core value: fields of the same name are taken over, ``said`` adds or replaces."""
        names = {f.name for f in fields(core)} if is_dataclass(core) else set()
        taken: Mapping[str, Any] = {
            name: getattr(core, name) for name in cls.model_fields if name in names and name not in said
        }
        return cls(**taken, **said)
