#!/bin/sh
# Sets Hobwort up where needed and opens its window: sh packaging/run.sh [RECIPE]
# Without a display it prints a forecast and writes the brew sheet into the current folder.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
extras=""
wants_display=no
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    wants_display=yes
fi
. "$top/packaging/setup.sh"

# -P: a folder named "designer" where the brewer happens to stand is not ours.
hobwort() { "$top/.venv-hobwort/bin/python" -P -m designer "$@"; }

# Qt ends the process where a display does not answer, so that is tried in a process apart.
display_answers() {
    "$top/.venv-hobwort/bin/python" -P -c \
        'from PySide6.QtGui import QGuiApplication; QGuiApplication([])' >/dev/null 2>&1
}

if [ "$wants_display" = no ]; then
    say "no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so no window;"
elif display_answers; then
    hobwort "$@"
    exit $?
else
    say "the display ${WAYLAND_DISPLAY:-$DISPLAY} cannot be opened, so no window;"
fi

recipe=${1:-$top/resources/examples/harbour_lamp_porter.hobwort}
sheet=$(basename -- "$recipe" .hobwort).pdf
say "printing the forecast and writing the brew sheet to ${PWD%/}/$sheet instead."
hobwort forecast "$recipe" || exit $?
hobwort sheet "$recipe" -o "${PWD%/}/$sheet"
