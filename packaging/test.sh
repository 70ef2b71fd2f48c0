#!/bin/sh
# Sets Hobwort up with its test tools where needed and runs the tests:
# sh packaging/test.sh [--browser | --all] [PYTEST WORDS]
# With --browser a browser is installed too, in which the page for a phone is tried; where there is
# none those tests are skipped, and that is said. With --all every case of the largest tables is
# tried, of which else a share is, and there follow what takes long: the whole sheet command against
# a spreadsheet (LibreOffice, of Debian), the pictures of the guide against the window of today, and
# the packages, made twice and tried.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
extras="[dev]"
wants_display=no
wants_browser=no
all=no
case ${1:-} in
    --browser | --all)
        wants_browser=yes
        [ "$1" = --all ] && all=yes && wants_tools="libreoffice-calc-nogui"
        shift
        set -- -rs "$@"
        ;;
esac
. "$top/packaging/setup.sh"

cd "$top" || exit 1
python="$top/.venv-hobwort/bin/python"
# Whoever forbids Python to keep what it compiled lets each process that tests and their programs
# are, some hundred, compile all of it anew.
unset PYTHONDONTWRITEBYTECODE
say "running the tests, windows drawn off the screen"
QT_QPA_PLATFORM=offscreen
export QT_QPA_PLATFORM
[ "$all" = yes ] || exec "$python" -m pytest "$@"

code=0
stage() {
    begun=$(date +%s)
    "$@" || code=1
    say "$(($(date +%s) - begun)) s for: $*"
}
HOBWORT_EVERY_CASE=yes
export HOBWORT_EVERY_CASE
stage "$python" -m pytest "$@"
stage "$python" tests/benchmarks/sheet_against_spreadsheet.py
stage "$python" -m tests.guide_pictures --check
unset QT_QPA_PLATFORM
stage sh "$top/packaging/try_packages.sh" --all
exit "$code"
