"""What does the service say of itself?"""

from typing import Literal

from pydantic import Field

from service.api.schemas.base import Out


class LiveOut(Out):
    """The process runs."""

    status: Literal["alive"]


class ReadyOut(Out):
    """The tables are read and questions can be answered."""

    status: Literal["ready"]


class VersionOut(Out):
    """Which code and which tables answer. Both enter every ETag through the answer's bytes."""

    service_version: str = Field(description="Version of the code.", examples=["0.1.0"])
    data_version: str = Field(description="Digest of the packaged tables.", examples=["3f9a0c1d2e4b"])
