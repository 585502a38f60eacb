"""One fault of the shape of a file, before it is put into words.

Takes     nothing: a record only.
Gives     ``Fault``.
Problems  none.
From      JSON Schema's words for what does not conform.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from workeven.records import record

#: Keys and indexes from the root of a file to a value.
Path = tuple[str | int, ...]


@record
class Fault:
    """One fault of shape: its kind, where, the schema there.

    ``key`` is the key that is unknown or missing, ``found`` the value that is misshapen,
    ``others`` are further keys of the same table with the same fault,
    ``left_out`` the path of what the stages after this one do without.
    """

    kind: str
    path: Path
    schema: Mapping[str, Any]
    key: str | None = None
    others: tuple[str, ...] = ()
    found: object = None
    left_out: Path | None = None
