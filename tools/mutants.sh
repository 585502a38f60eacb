#!/bin/sh
# Mutation testing of the modules that decide counts: `make mutants`, some hours in one process.
#
#   sh tools/mutants.sh [--long] [MODULE ...]     all modules, or those named (proof/turns)
#
# Works in a copy of the checkout in .mutants and keeps its results there: a second run tries only
# what has changed since, and what survived. Which modules are mutated and by which tests stands in
# pyproject.toml, [tool.mutmut]; how, in tools/mutants.py.
# Exit status: 0 when the tests could be asked.

set -eu
cd "$(dirname "$0")/.."

root=$(pwd)
work=.mutants
mkdir -p "$work"
for name in src tests patterns guide; do rm -rf "${work:?}/$name"; done
cp -R plugins "$work/src"
cp -R tests patterns guide "$work/"
sed 's/^pythonpath = \["plugins", "\."\]$/pythonpath = ["src", "."]/; s/"--doctest-modules"//;
    s/^filterwarnings = .*$/filterwarnings = ["ignore"]/; s/^testpaths = .*$/testpaths = ["tests"]/' \
    pyproject.toml >"$work/pyproject.toml"
cd "$work"
export WORKEVEN_ORACLE_PIECES="${WORKEVEN_ORACLE_PIECES:-100}"
"$root/.venv/bin/python" "$root/tools/mutants.py" "$@"
"$root/.venv/bin/python" "$root/tools/mutant_figures.py" results
