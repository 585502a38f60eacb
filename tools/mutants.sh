#!/bin/sh
# Mutation testing of the modules that decide counts: `make mutants`, an hour or so in one process.
#
#   sh tools/mutants.sh [NAMES]     all mutants, or those whose names match (a shell pattern)
#
# mutmut expects the sources in a folder called `src`, so a copy of the checkout is made in .mutants,
# where it also keeps its results: a second run tries only what has changed since. Which modules are
# mutated and by which tests stands in pyproject.toml, [tool.mutmut].
# Exit status: that of mutmut.

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
"$root/.venv/bin/python" -m mutmut run --max-children 1 "$@"
"$root/.venv/bin/python" -m mutmut results
"$root/.venv/bin/python" "$root/tools/mutant_figures.py" .
