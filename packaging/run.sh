#!/bin/sh
# Sets Hobwort up where needed and opens its window: sh packaging/run.sh [RECIPE]
# Without a display it prints a forecast and writes the brew sheet into the current folder.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
extras=""
wants_display=no
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    wants_display=yes
fi
. "$top/packaging/setup.sh"

if [ "$wants_display" = yes ]; then
    exec "$top/.venv-hobwort/bin/python" -m designer "$@"
fi

recipe=${1:-$top/resources/examples/harbour_lamp_porter.hobwort}
sheet=$(basename -- "$recipe" .hobwort).pdf
say "no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so no window;"
say "printing the forecast and writing the brew sheet to $PWD/$sheet instead."
"$top/.venv-hobwort/bin/python" -m designer forecast "$recipe" || exit $?
"$top/.venv-hobwort/bin/python" -m designer sheet "$recipe" -o "$PWD/$sheet"
