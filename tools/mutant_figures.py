"""Prints what became of the mutants: ``python tools/mutant_figures.py FOLDER [--survivors]``.

Takes     the folder in which tools/mutants.py has kept its results.
Gives     a table, a module a line: mutants that change what is counted, and of those killed; and
          beside them those that change only what a message says.
Problems  none.
From      the results of each module (JSON) and its mutants (Python) beside them.

A mutant changes only what a message says where it differs from the original inside the making of a
problem: in a call of a ``...Fault`` or of ``Problem``, or in words that are put together for one.
"""

from __future__ import annotations

import ast
import difflib
import json
import re
import sys
from collections import Counter
from pathlib import Path

#: what tools/mutants.py writes for a mutant that the tests have found
_FOUND = ("killed", "too long")
_MESSAGE = re.compile(r"Fault$|^Problem$|^AssertionError$")


def main(folder: Path, *, survivors: bool) -> None:
    """The table, and on request each survivor as a difference of lines."""
    total: Counter[str] = Counter()
    print("| module | change counts | killed | change words | killed |")
    print("| --- | ---: | ---: | ---: | ---: |")
    shown: list[str] = []
    for results in sorted(folder.glob("workeven.*.json")):
        functions = _functions(results.with_suffix(".py"))
        cells: Counter[str] = Counter()
        for key, one in json.loads(results.read_text("utf-8")).items():
            name = key.rsplit(".", 1)[1]
            original = functions[name.rsplit("__mutmut_", 1)[0] + "__mutmut_orig"]
            sort = "words" if _only_words(original, functions[name]) else "counts"
            killed = one["result"] in _FOUND
            cells[sort] += 1
            cells[f"{sort} killed"] += killed
            if not killed:
                shown.append(_shown(key, original, functions[name], sort, one["result"]))
        total.update(cells)
        print(_line(results.stem, cells))
    print(_line("all", total))
    if survivors:
        print("\n".join(shown))


def _line(name: str, cells: Counter[str]) -> str:
    parts = []
    for sort in ("counts", "words"):
        made, killed = cells[sort], cells[f"{sort} killed"]
        parts.append(f"{made} | {killed} ({100 * killed / made:.1f} %)" if made else "0 | ")
    return f"| {name} | {' | '.join(parts)} |"


def _functions(source: Path) -> dict[str, ast.FunctionDef]:
    tree = ast.parse(source.read_text("utf-8"))
    return {node.name: node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}


def _only_words(original: ast.FunctionDef, mutant: ast.FunctionDef) -> bool:
    """Whether the two are alike but for the words and places of messages."""
    if _speaks(original):
        return True
    return ast.dump(_Silent().visit(_again(original)).body[0]) == ast.dump(
        _Silent().visit(_again(mutant)).body[0]
    )


def _speaks(function: ast.FunctionDef) -> bool:
    """A function that makes nothing but a message, or words for one."""
    given = ast.unparse(function.returns) if function.returns else ""
    return given.endswith("Fault") or given in {"NoReturn", "str"}


def _again(function: ast.FunctionDef) -> ast.Module:
    copy = ast.parse(ast.unparse(function))
    first = copy.body[0]
    assert isinstance(first, ast.FunctionDef)
    first.name = "same"
    return copy


class _Silent(ast.NodeTransformer):
    """Takes out what messages are made of."""

    def visit_Call(self, node: ast.Call) -> ast.AST:
        named = node.func.attr if isinstance(node.func, ast.Attribute) else ""
        named = node.func.id if isinstance(node.func, ast.Name) else named
        if _MESSAGE.search(named):
            return ast.Call(func=node.func, args=[], keywords=[])
        return self.generic_visit(node)


def _shown(key: str, original: ast.AST, mutant: ast.AST, sort: str, result: str) -> str:
    before, after = (ast.unparse(one).splitlines()[1:] for one in (original, mutant))
    lines = [
        f"    {line}"
        for line in difflib.unified_diff(before, after, lineterm="", n=0)
        if line[0] in "+-" and not line.startswith(("+++", "---"))
    ]
    return "\n".join([f"{key} [{sort}, {result}]", *lines])


if __name__ == "__main__":
    main(Path(sys.argv[1]), survivors="--survivors" in sys.argv)
