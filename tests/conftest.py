"""Options of the test command that are ours."""

from __future__ import annotations

import os
import signal

import pytest
from hypothesis import settings

# a law is right or wrong however busy the machine is: no test reads a clock
settings.register_profile("no clock", deadline=None)
settings.load_profile("no clock")

# tests change the engine under the cache's feet: who tests the cache says where it lies
os.environ["WORKEVEN_CACHE"] = "off"

# a run in the background is told to ignore Ctrl-C, and so would be all that it starts
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_addoption(parser: pytest.Parser) -> None:
    """``--update-cases`` writes the results in tests/cases/*.md anew."""
    parser.addoption(
        "--update-cases",
        action="store_true",
        default=False,
        help="write the counts and problems in tests/cases/*.md anew, then read the difference",
    )
