"""Files that came with the package, as text: tables and schemas.

Takes     the path of a file within the package.
Gives     ``text``.
Problems  none.
From      DEVELOPERS.md, "Measured".

``pkgutil`` asks what loaded the package, so a wheel that was never unpacked will do. It takes a
tenth of the time of ``importlib.resources``, which loads all that could ever make a temporary file
of a member of an archive.
"""

from __future__ import annotations

import pkgutil


def text(path: str) -> str:
    """The text of a packaged file.

    >>> text("standards/hooks.csv").splitlines()[0]
    'mm,us,uk_old,japan,citation,status,note'
    """
    content = pkgutil.get_data(__package__, path)
    assert content is not None  # None only of a loader that can give no file, which ours all can
    return content.decode("utf-8")
