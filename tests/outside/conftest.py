"""Sites that are built once and given to validators."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.sites import canaries, demo, stretched


@pytest.fixture(scope="session")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The demo; one with a canary in every text; one of many sizes and long words."""
    return {
        "demo": demo(tmp_path_factory.mktemp("demo")),
        "canaries": canaries(tmp_path_factory.mktemp("canaries")).site,
        "stretched": stretched(tmp_path_factory.mktemp("stretched")).site,
    }
