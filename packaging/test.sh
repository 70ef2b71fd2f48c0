#!/bin/sh
# Sets Hobwort up with its test tools where needed and runs the tests:
# sh packaging/test.sh [--all] [PYTEST WORDS]
# With --all a browser is installed too, in which the page for a phone is tried; where there is none
# those tests are skipped, and that is said.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
extras="[dev]"
wants_display=no
wants_browser=no
if [ "${1:-}" = --all ]; then
    wants_browser=yes
    shift
    set -- -rs "$@"
fi
. "$top/packaging/setup.sh"

cd "$top" || exit 1
say "running the tests, windows drawn off the screen"
QT_QPA_PLATFORM=offscreen
export QT_QPA_PLATFORM
exec "$top/.venv-hobwort/bin/python" -m pytest "$@"
