"""The workflows that studios copy: what they may do, and whose files they run."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml

WORKFLOWS = sorted((Path(__file__).parents[1] / "guide" / "assets" / "workflows").glob("*.yml"))


def read(path: Path) -> Any:  # noqa: ANN401
    """A workflow as its host reads it."""
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def git(folder: Path, *words: str) -> str:
    """What git prints."""
    who = ("-c", "user.name=A", "-c", "user.email=a@localhost")
    command = ["git", *who, *words]
    done = subprocess.run(command, cwd=folder, check=True, capture_output=True, encoding="utf-8")
    return done.stdout.strip()


@pytest.mark.parametrize("path", WORKFLOWS, ids=lambda path: path.stem)
def test_a_workflow_asks_for_little(path: Path) -> None:
    """Reads alone by default; no secret, no action without its hash, no text put into a script."""
    text = path.read_text(encoding="utf-8")
    workflow = read(path)
    steps = [step for job in workflow["jobs"].values() for step in job["steps"]]
    assert workflow["permissions"] == {"contents": "read"}
    assert re.findall(r"secrets\.|pull_request_target", text) == []
    uses = [step["uses"] for step in steps if "uses" in step]
    assert [one for one in uses if not re.search(r"@[0-9a-f]{40}$", one)] == []
    assert [step["name"] for step in steps if "${{" in step.get("run", "")] == []


def test_a_pull_request_gives_its_patterns_and_nothing_else(tmp_path: Path) -> None:
    """Run as it stands: patterns as the pull request has them, every other file the base's."""
    (origin := tmp_path / "origin").mkdir()
    git(origin, "init", "-q", ".")
    git(origin, "config", "uploadpack.allowAnySHA1InWant", "true")
    for name in ("requirements.txt", "patterns/old/pattern.yaml"):
        (origin / name).parent.mkdir(parents=True, exist_ok=True)
        (origin / name).write_text("base\n", encoding="utf-8")
    git(origin, "add", "-A")
    git(origin, "commit", "-q", "-m", "base")
    base = git(origin, "rev-parse", "HEAD")
    git(origin, "mv", "patterns/old", "patterns/new")
    for name in ("requirements.txt", "patterns/new/pattern.yaml", "sitecustomize.py"):
        (origin / name).write_text("pull request\n", encoding="utf-8")
    git(origin, "add", "-A")
    git(origin, "commit", "-q", "-m", "pull request")
    (work := tmp_path / "work").mkdir()
    (check,) = [path for path in WORKFLOWS if path.stem == "check"]
    script = read(check)["jobs"]["check"]["steps"][0]["run"]
    names = {"REPOSITORY": str(origin), "BASE": base, "HEAD": git(origin, "rev-parse", "HEAD")}
    subprocess.run(
        ["/bin/sh", "-e", "-c", script], cwd=work, check=True, env={**os.environ, **names}
    )
    found = {
        str(path.relative_to(work)): path.read_text(encoding="utf-8").strip()
        for path in work.rglob("*")
        if path.is_file() and ".git" not in path.parts
    }
    assert found == {"requirements.txt": "base", "patterns/new/pattern.yaml": "pull request"}


def test_a_review_begins_where_the_pull_request_has_begun(tmp_path: Path) -> None:
    """Run as it stands, but for workeven itself: what the base has changed since is left out."""
    (origin := tmp_path / "origin").mkdir()
    git(origin, "init", "-q", "-b", "main", ".")
    git(origin, "config", "uploadpack.allowAnySHA1InWant", "true")
    pattern = origin / "patterns" / "old" / "pattern.yaml"
    pattern.parent.mkdir(parents=True)
    for words in ("first", "fork", "base"):
        pattern.write_text(f"{words}\n", encoding="utf-8")
        git(origin, "add", "-A")
        git(origin, "commit", "-q", "-m", words)
    base, fork = git(origin, "rev-parse", "HEAD"), git(origin, "rev-parse", "HEAD~1")
    git(origin, "checkout", "-q", "-b", "theirs", fork)
    pattern.write_text("pull request\n", encoding="utf-8")
    git(origin, "commit", "-q", "-a", "-m", "pull request")
    (work := tmp_path / "work").mkdir()
    (fake := tmp_path / "venv" / "bin").mkdir(parents=True)
    (fake / "workeven").write_text('#!/bin/sh\necho "$@"\n', encoding="utf-8")
    (fake / "workeven").chmod(0o755)
    (check,) = [path for path in WORKFLOWS if path.stem == "check"]
    steps = read(check)["jobs"]["check"]["steps"]
    names = {"REPOSITORY": str(origin), "BASE": base, "HEAD": git(origin, "rev-parse", "HEAD")}
    environment = {**os.environ, **names, "RUNNER_TEMP": str(tmp_path)}
    for script in (steps[0]["run"], steps[-1]["run"]):
        done = subprocess.run(
            ["/bin/sh", "-e", "-c", script],
            cwd=work,
            check=True,
            env=environment,
            capture_output=True,
            encoding="utf-8",
        )
    assert f"review --format github {fork}\n" == done.stdout
