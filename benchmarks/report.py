"""What a benchmark prints: each figure beside the most that it may be, as JSON.

Takes     figures, and the goals by the same names.
Gives     ``judged``; ``machine``; ``told``.
Problems  none.
From      DEVELOPERS.md, "Measured".
"""

from __future__ import annotations

import json
import os
import platform
from collections.abc import Mapping
from importlib import metadata
from typing import TypeVar

Name = TypeVar("Name", int, str)
Judged = list[dict[str, object]]


def judged(
    found: Mapping[Name, float],
    goals: Mapping[Name, tuple[str, float]],
    *,
    figure: str = "ratio",
    numbered: bool = True,
) -> Judged:
    """Each goal, what is measured for it, the ``figure``, and whether it is met."""
    return [
        {
            **({"goal": goal} if numbered else {}),
            "what": what,
            figure: round(found[goal], 3),
            "at_most": most,
            "met": found[goal] <= most,
        }
        for goal, (what, most) in goals.items()
    ]


def machine() -> dict[str, object]:
    """What the figures were measured on."""
    return {
        "python": platform.python_version(),
        "system": platform.system(),
        "cores": os.cpu_count(),
        "mkdocs": metadata.version("mkdocs"),
        "mkdocs-material": metadata.version("mkdocs-material"),
    }


def told(report: Mapping[str, object]) -> None:
    """Print it."""
    print(json.dumps(report, indent=2, ensure_ascii=False))
