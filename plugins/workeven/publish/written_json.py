"""JSON as the files beside a page have it: a value a line, indented, in UTF-8.

Takes     values as ``json.dumps`` takes them, names of objects as texts; no floats.
Gives     ``written``.
Problems  none.
From      RFC 8259; Python, ``json.dumps(…, ensure_ascii=False, indent=…)``, whose bytes these are.

With an indent ``json`` leaves its quick half aside and hands every comma on by itself. A pattern
has some thousand lines of numbers.
"""

from __future__ import annotations

from collections.abc import Mapping
from json.encoder import encode_basestring  # in C where it can be


def written(value: object, indent: int) -> bytes:
    r"""The value, a part of it a line, each so many spaces further in than what it is part of.

    >>> written({"sts": [12, None], "row": {}}, 1)
    b'{\n "sts": [\n  12,\n  null\n ],\n "row": {}\n}\n'
    """
    return f"{_text(value, ' ' * indent, chr(10))}\n".encode()


def _text(value: object, step: str, line: str) -> str:
    """The value; ``line`` begins a line as far in as the value stands."""
    if isinstance(value, str):
        return encode_basestring(value)
    if type(value) is int:
        return str(value)
    if value is None:
        return "null"
    if value is True or value is False:
        return "true" if value else "false"
    further = line + step
    if isinstance(value, Mapping):
        if not value:
            return "{}"
        named = [
            f"{encode_basestring(name)}: {_text(one, step, further)}" for name, one in value.items()
        ]
        return f"{{{further}{f',{further}'.join(named)}{line}}}"
    if isinstance(value, list | tuple):
        if not value:
            return "[]"
        parts = [str(one) if type(one) is int else _text(one, step, further) for one in value]
        return f"[{further}{f',{further}'.join(parts)}{line}]"
    raise TypeError(f"{type(value).__name__} is nothing that JSON has")
