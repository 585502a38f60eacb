#!/bin/sh
# Make or refresh .venv in this checkout, so that it holds what one lock file says.
#
#   sh tools/setup.sh site|test|lock
#
# Nothing is installed when the lock, the project file, the folder and the Python are those of the
# last time. Scripts inside .venv name its full path in their first line, which breaks when that
# path has a space: everything is therefore called as `.venv/bin/python -m ...`.
# Exit status: 0 ready, 2 something is missing (said in one line).

set -eu
cd "$(dirname "$0")/.."

what=${1:?"site, test or lock"}
venv=.venv
oldest="3.11"
new_enough='import sys; sys.exit(sys.version_info < (3, 11))'

missing() {
    printf '%s\n' "$@" >&2
    exit 2
}

as_root() {
    if [ "$(id -u)" = 0 ]; then printf '%s' "$*"; else printf 'sudo %s' "$*"; fi
}

version_of() {
    "$1" -c 'import sys; print("%d.%d" % sys.version_info[:2])' 2>/dev/null || echo "none that runs"
}

find_python() {
    for python in ${PYTHON:+"$PYTHON"} python3 python3.14 python3.13 python3.12 python3.11; do
        if command -v "$python" >/dev/null 2>&1 && "$python" -c "$new_enough" 2>/dev/null; then
            return 0
        fi
    done
    found="no python3"
    if command -v python3 >/dev/null 2>&1; then found="Python $(version_of python3)"; fi
    missing "workeven needs Python $oldest or newer; here is $found." \
        "On Debian 12 and newer this line installs it: $(as_root apt-get install python3 python3-venv)" \
        "If a newer Python stands elsewhere, name it: PYTHON=/its/path make $what"
}

make_venv() {
    find_python
    if ! "$python" -c 'import venv, ensurepip' 2>/dev/null; then
        missing "Python $(version_of "$python") is here, but its venv module is not." \
            "On Debian this line installs it: $(as_root apt-get install python3-venv)"
    fi
    "$python" -m venv --clear "$venv" || missing "The folder .venv could not be made: see above."
}

# A .venv whose Python was removed or is too old is made anew.
if ! "$venv/bin/python" -c "$new_enough" 2>/dev/null ||
    ! "$venv/bin/python" -c 'import pip' 2>/dev/null; then
    make_venv
fi

# The lock of the tests holds all that the site needs, in the same versions.
stamp_of() {
    echo "$(cat "locks/$1.txt" pyproject.toml tools/setup.sh | cksum) $(pwd)" \
        "$("$venv/bin/python" -c 'import sys; print(sys.version, sys.base_prefix)')"
}

is_ready() {
    [ -f "$venv/ready-for-$1" ] && [ "$(cat "$venv/ready-for-$1")" = "$(stamp_of "$1")" ]
}

if is_ready "$what"; then exit 0; fi
if [ "$what" = site ] && is_ready test; then exit 0; fi

# Progress for a person who waits; quiet in a pipe.
if [ -t 1 ]; then quiet=""; else quiet="-qq"; fi
pip() {
    "$venv/bin/python" -m pip --disable-pip-version-check "$@" || missing \
        "Installing into .venv failed: see above. Is this machine on-line? The same command, typed" \
        "again, goes on from here."
}

if [ -t 1 ]; then echo "Installing what locks/$what.txt lists into .venv (some minutes, once)"; fi
rm -f "$venv/ready-for-$what"
pip install $quiet --require-hashes -r "locks/$what.txt"
if [ "$what" != lock ]; then
    pip install $quiet --no-deps --no-build-isolation --editable .
fi
stamp_of "$what" >"$venv/ready-for-$what"
