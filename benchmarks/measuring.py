"""How a ratio is measured: interleaved runs, the least of them, user and system time.

Takes     pieces of work, by name.
Gives     the least time of each in seconds; ``process_cost``: time and memory of one process.
Problems  none.
From      DEVELOPERS.md, "Measured".

The works take turns within each round, so that a busy moment of the machine meets all of them;
the least of the rounds is what the work costs when nothing else goes on. Time on the processor is
counted (user and system), not time on the clock.
"""

from __future__ import annotations

import gc
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

ROUNDS = 7
#: a work inside this process is repeated until one measurement takes so long (seconds)
LONG_ENOUGH = 0.05

#: the variable of ``workeven.cache.place``, which a benchmark of another engine does not have
NO_CACHE = "WORKEVEN_CACHE"

Work = Callable[[], object]


def least_times(works: Mapping[str, Work], rounds: int = ROUNDS) -> dict[str, float]:
    """The least time of each work within this process."""
    times: dict[str, list[float]] = {name: [] for name in works}
    repeats = {name: _repeats(work) for name, work in works.items()}
    for turn in range(rounds):
        _progress(turn, rounds)
        for name, work in works.items():
            times[name].append(_once(work, repeats[name]))
    return {name: min(found) for name, found in times.items()}


def least_process_times(
    commands: Mapping[str, Sequence[str]], folder: Path, rounds: int = ROUNDS
) -> dict[str, float]:
    """The least time of each command as a process of its own, all that it starts included."""
    times: dict[str, list[float]] = {name: [] for name in commands}
    for turn in range(rounds):
        _progress(turn, rounds)
        for name, words in commands.items():
            times[name].append(_process(words, folder))
    return {name: min(found) for name, found in times.items()}


@contextmanager
def fast_folder() -> Iterator[Path]:
    """A folder in memory where the system has one (Linux), so that no disk is measured."""
    memory = Path("/dev/shm")  # noqa: S108, measured files are ours and the name is random
    where = memory if memory.is_dir() and os.access(memory, os.W_OK) else None
    with tempfile.TemporaryDirectory(prefix="workeven-", dir=where) as folder:
        yield Path(folder)


def _repeats(work: Work) -> int:
    """How often a work is done for one measurement; warms it up too."""
    work()
    once = max(_once(work, 1), 1e-6)
    return max(1, round(LONG_ENOUGH / once))


def _once(work: Work, repeats: int) -> float:
    gc.collect()
    start = time.process_time()
    for _ in range(repeats):
        work()
    return (time.process_time() - start) / repeats


def process_cost(
    words: Sequence[str], folder: Path, more: Mapping[str, str] | None = None
) -> tuple[float, int]:
    """Seconds of one process, and the most memory that it held (KiB; on Linux).

    ``more`` is added to its environment.
    """
    with tempfile.TemporaryFile() as told:
        started = subprocess.Popen(
            words,
            cwd=folder,
            env=_environment(folder, more),
            stdout=told,
            stderr=subprocess.STDOUT,
        )
        _, status, used = os.wait4(started.pid, 0)
        started.returncode = os.waitstatus_to_exitcode(status)
        if started.returncode != 0:
            told.seek(0)
            raise SystemExit(f"{' '.join(words)} failed:\n{told.read().decode(errors='replace')}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss


def _environment(folder: Path, more: Mapping[str, str] | None = None) -> dict[str, str]:
    """Python keeps compiled modules as it does for users, in the fast folder.

    Nothing that workeven found is kept, unless the caller has said where.
    """
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(folder / "compiled")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return {**environment, NO_CACHE: "off", **(more or {})}


def _process(words: Sequence[str], folder: Path) -> float:
    """One process, with all that it starts."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(
        words,
        cwd=folder,
        env=_environment(folder),
        check=False,
        capture_output=True,
        encoding="utf-8",
        errors="replace",
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode != 0:
        raise SystemExit(f"{' '.join(words)} failed:\n{done.stdout}{done.stderr}")
    return (after.ru_utime - before.ru_utime) + (after.ru_stime - before.ru_stime)


def _progress(turn: int, rounds: int) -> None:
    if sys.stderr.isatty():
        print(f"\rround {turn + 1} of {rounds} ", end="", file=sys.stderr, flush=True)
