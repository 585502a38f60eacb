"""A build that is killed, or cannot write, leaves the old site or the new one."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="it forks")
def test_a_site_is_never_published_in_part() -> None:
    """Killed at random moments, failed at writes of every kind, cut by a full disk."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.killed", "4", "12"],
        cwd=CHECKOUT,
        env={"PYTHONPATH": f"{CHECKOUT / 'plugins'}:{CHECKOUT}", "NO_MKDOCS_2_WARNING": "1"},
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert (0, "") == (done.returncode, done.stderr[-2000:])
    found = json.loads(done.stdout)
    assert 4 == sum(found["killed"].values())
    assert {"new": 1} == found["after"]
    assert {"old", "new"} == set(found["failed"])
    assert {"old": 4} == found["cut"]
    assert 0 == found["left behind"]
