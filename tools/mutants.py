"""Tries mutants of the modules that decide counts: ``python mutants.py [--long] [MODULES]``.

Takes     the working folder that tools/mutants.sh makes (`src`, `tests`, pyproject.toml with
          `[tool.mutmut]`), in which it is started, and the ends of modules' names, else all.
Gives     `results/MODULE.py`, the module with all its mutants, and `results/MODULE.json`, what
          became of each; tools/mutant_figures.py counts them. `results/tests-*.json` say how
          long each test takes and which functions of the modules named it reaches.
Problems  none.
From      mutmut's mutations. Its own runs start pytest anew for each mutant; here the tests are
          collected once, and each mutant is tried in a fork of that process by the tests that
          reach its function: those that killed a neighbour first, then the quick ones.

A mutant that was killed is not tried again while its text is the same; one that survived is asked
of the tests as they are now. Tests of more than two seconds are left out but with ``--long``.
"""

from __future__ import annotations

import hashlib
import json
import os
import resource
import sys
import time
import tomllib
from collections import defaultdict
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import NamedTuple

import pytest
from _pytest.runner import runtestprotocol
from mutmut.mutation.file_mutation import mutate_file_contents
from mutmut.mutation.trampoline import set_mutant_under_test
from mutmut.state import state

RESULTS = Path("results")
#: seconds; a test that takes longer is asked with --long only
_LONG = 2.0
#: a mutant may take so many times what its tests take on the sources as they are, and so much more
_TIMES, _SECONDS = 5, 10
#: seconds that a test on the sources as they are is waited for
_PATIENCE = 600
#: what a mutant that makes without end may hold, in bytes
_ROOM = 3 << 30
SURVIVED, KILLED, TOO_LONG, NOT_REACHED = "survived", "killed", "too long", "not reached"


class Mutant(NamedTuple):
    """The name that switches it on, its function, and the text of it by which it is known again."""

    name: str
    function: str
    text: str


class Reach(NamedTuple):
    """What a test takes, in seconds of the clock, and the functions that it reaches."""

    seconds: float
    functions: tuple[str, ...]


def main(modules: Sequence[str], *, long: bool) -> int:
    """Write the mutants, collect the tests, try them; the exit status of pytest."""
    settings = tomllib.loads(Path("pyproject.toml").read_text("utf-8"))["tool"]["mutmut"]
    paths = [Path(name) for name in settings["only_mutate"]]
    chosen = [path for path in paths if not modules or path.as_posix().endswith(tuple(modules))]
    RESULTS.mkdir(exist_ok=True)
    mutants = {_module(path): write_mutants(path) for path in chosen}
    tests = [*settings["pytest_add_cli_args"], *settings["pytest_add_cli_args_test_selection"]]
    return int(pytest.main(["-q", "--tb=no", *tests], plugins=[Trial(mutants, long=long)]))


def _module(path: Path) -> str:
    return ".".join(path.with_suffix("").parts[1:])


def write_mutants(path: Path) -> list[Mutant]:
    """Put a module with all its mutants, none of them switched on, in its place."""
    mutated = mutate_file_contents(str(path), path.read_text("utf-8"))
    path.write_text(mutated.code, "utf-8")
    (RESULTS / f"{_module(path)}.py").write_text(mutated.code, "utf-8")
    lines = mutated.code.splitlines()
    found = []
    for name in mutated.mutant_names:
        span = mutated.line_span_by_function_name[name]
        text = hashlib.sha256("\n".join(lines[span.start : span.end]).encode()).hexdigest()
        function = name.rsplit("__mutmut_", 1)[0]
        found.append(Mutant(f"{_module(path)}.{name}", f"{_module(path)}.{function}", text))
    return found


class Trial:
    """A plugin of pytest that tries mutants where pytest would run the tests once."""

    def __init__(self, mutants: dict[str, list[Mutant]], *, long: bool) -> None:
        self.mutants = mutants
        self.longest = float("inf") if long else _LONG
        self.killers: defaultdict[str, list[str]] = defaultdict(list)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Try the mutants of each module, and keep the results after each."""
        items = {item.nodeid: item for item in session.items}
        reached = reach(items, tuple(self.mutants))
        for module, mutants in self.mutants.items():
            results = _Results(RESULTS / f"{module}.json")
            for mutant in mutants:
                if not results.stands(mutant):
                    results.keep(mutant, *self.tried(mutant, items, reached))
                    results.write(mutants)
        return True

    def tried(
        self, mutant: Mutant, items: dict[str, pytest.Item], reached: dict[str, Reach]
    ) -> tuple[str, str]:
        """What became of a mutant, and the test that killed it."""
        names = [name for name in items if mutant.function in reached[name].functions]
        names = [name for name in names if reached[name].seconds <= self.longest]
        if not names:
            return NOT_REACHED, ""
        known = self.killers[mutant.function]
        names.sort(key=lambda name: (-known.count(name), reached[name].seconds))
        limit = _SECONDS + _TIMES * sum(reached[name].seconds for name in names)
        chosen = [items[name] for name in names]
        work = partial(_first_that_fails, chosen, mutant.name)
        result, by = _forked(work, int(limit))
        if result == KILLED:
            known.append(by)
        return result, by


class _Results:
    """What became of the mutants of a module, by their names."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.found: dict[str, dict[str, str]] = (
            json.loads(path.read_text("utf-8")) if path.exists() else {}
        )

    def stands(self, mutant: Mutant) -> bool:
        """Whether it was killed before, and has not changed since."""
        before = self.found.get(mutant.name, {})
        return before.get("text") == mutant.text and before["result"] in (KILLED, TOO_LONG)

    def keep(self, mutant: Mutant, result: str, by: str) -> None:
        """Note what became of it."""
        self.found[mutant.name] = {"result": result, "by": by, "text": mutant.text}

    def write(self, mutants: list[Mutant]) -> None:
        """Write what became of those that there are now."""
        names = {mutant.name for mutant in mutants}
        kept = {name: one for name, one in self.found.items() if name in names}
        self.path.write_text(json.dumps(kept, indent=1, ensure_ascii=False), "utf-8")


# --- tests ---------------------------------------------------------------------------------


def reach(items: dict[str, pytest.Item], modules: tuple[str, ...]) -> dict[str, Reach]:
    """What each test takes, and reaches of these modules; known where its file is the same."""
    sort = hashlib.sha256(" ".join(modules).encode()).hexdigest()[:8]
    kept = RESULTS / f"tests-{sort}.json"
    before = json.loads(kept.read_text("utf-8")) if kept.exists() else {}
    paths = {item.path for item in items.values()}
    texts = {path: hashlib.sha256(path.read_bytes()).hexdigest() for path in paths}
    found = {}
    for name, item in items.items():
        known = before.get(name)
        if known is None or known["text"] != texts[item.path]:
            said = _forked(partial(_measured, item), _PATIENCE)[1]
            if not said:
                pytest.exit(f"{name} fails without any mutant", returncode=1)
            known = json.loads(said)
        found[name] = {**known, "text": texts[item.path]}
    kept.write_text(json.dumps({**before, **found}, indent=1, ensure_ascii=False), "utf-8")
    return {name: Reach(one["seconds"], tuple(one["functions"])) for name, one in found.items()}


def _measured(item: pytest.Item) -> str:
    set_mutant_under_test("stats")
    _reached().clear()
    start = time.monotonic()
    if any(report.failed for report in runtestprotocol(item, log=False, nextitem=None)):
        return ""
    taken = time.monotonic() - start
    return json.dumps({"seconds": round(taken, 3), "functions": sorted(_reached())})


def _reached() -> set[str]:
    functions: set[str] = state()._stats  # noqa: SLF001, mutmut notes there what is called and has no other door
    return functions


def _first_that_fails(items: list[pytest.Item], mutant: str) -> str:
    """The name of the first test that fails with a mutant switched on."""
    set_mutant_under_test(mutant)
    for item, behind in zip(items, [*items[1:], None], strict=True):
        if any(report.failed for report in runtestprotocol(item, log=False, nextitem=behind)):
            return item.nodeid
    return ""


# --- processes -----------------------------------------------------------------------------


def _forked(work: Callable[[], str], seconds: int) -> tuple[str, str]:
    """What became of work that a process of its own does, and what it says.

    It is killed where it says something, or ends in another way than by itself.
    """
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        resource.setrlimit(resource.RLIMIT_AS, (_ROOM, _ROOM))
        status = 1
        try:
            os.write(writing, work().encode())
            status = 0
        finally:
            os._exit(status)
    os.close(writing)
    with os.fdopen(reading, encoding="utf-8") as pipe:
        said = pipe.read()
    _, ended = os.waitpid(child, 0)
    if os.WIFSIGNALED(ended):
        return TOO_LONG, said
    return (KILLED if said or ended else SURVIVED), said


if __name__ == "__main__":
    asked = [one for one in sys.argv[1:] if one != "--long"]
    sys.exit(main([f"{one}.py" for one in asked], long="--long" in sys.argv))
