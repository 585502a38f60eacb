#!/bin/sh
# See that Chromium is there for the browser tests: installed from Debian's packages when run as
# root, else the one line to type is shown.
# Exit status: 0 there, 2 missing.

set -eu

for browser in chromium chromium-browser google-chrome; do
    if command -v "$browser" >/dev/null 2>&1; then exit 0; fi
done

line="apt-get update && apt-get install --yes --no-install-recommends chromium"
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
    if [ -t 1 ]; then
        echo "Installing Chromium for the browser tests (some minutes, once)"
        sh -c "$line" && exit 0
    else
        log=$(mktemp)
        if sh -c "$line" >"$log" 2>&1; then rm -f "$log"; exit 0; fi
        cat "$log" >&2
        rm -f "$log"
    fi
fi
echo "The browser tests need Chromium. On Debian this line installs it:" >&2
echo "    sudo sh -c '$line'" >&2
exit 2
