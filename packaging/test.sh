#!/bin/sh
# Sets Hobwort up with its test tools where needed and runs the tests:
# sh packaging/test.sh [PYTEST WORDS]
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
extras="[dev]"
wants_display=no
. "$top/packaging/setup.sh"

cd "$top" || exit 1
say "running the tests, windows drawn off the screen"
QT_QPA_PLATFORM=offscreen
export QT_QPA_PLATFORM
exec "$top/.venv-hobwort/bin/python" -m pytest "$@"
