#!/bin/sh
# Everything that `make test` runs, in .venv. A step that fails does not keep the next from
# running; pytest comes last, so that its closing line is the end of the output.
# Exit status: 0 all passed, 1 something failed.

set -u
cd "$(dirname "$0")/.."

python=.venv/bin/python
failed=""

step() {
    name=$1
    shift
    if [ -t 1 ]; then echo "== $name"; fi
    if ! said=$("$@" 2>&1); then
        failed="$failed, $name"
        printf '%s\n' "$said" "FAILED: $name"
    fi
}

step "format" $python -m ruff format --check .
step "lint" $python -m ruff check --output-format concise .
step "types" $python -m mypy
step "layers" $python -c \
    'from importlinter.cli import lint_imports_command as run; run(["--no-logo", "--no-cache"])'

if [ -n "$failed" ]; then echo "Failed before pytest: ${failed#, }"; fi
if [ -t 1 ]; then echo "== tests"; fi
$python -m pytest
status=$?
[ "$status" = 0 ] && [ -z "$failed" ]
