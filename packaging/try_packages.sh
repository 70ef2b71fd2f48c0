#!/bin/sh
# Makes wheel, bundle and package and tries them: sh packaging/try_packages.sh
# Each is used as those would to whom it is handed; try_packages.py tells how.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
extras="[package]"
folder=.venv-hobwort-package
wants_display=yes
wants_tools="debootstrap dpkg-dev binutils xz-utils xvfb xdotool imagemagick"
. "$top/packaging/setup.sh"

work=$(mktemp -d /tmp/hobwort_packages.XXXXXX) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM
sh "$top/packaging/build_bundle.sh" -o "$work" --folder || exit 1
bundle=$(echo "$work"/hobwort-*)
sh "$top/packaging/build_deb.sh" -o "$work" --bundle "$bundle" || exit 1
"$top/$folder/bin/python" -m pip wheel -q --disable-pip-version-check --no-deps -w "$work" "$top" ||
    exit 1
"$top/$folder/bin/python" "$top/packaging/try_packages.py" --bundle "$bundle" \
    --deb "$(echo "$work"/*.deb)" --wheel "$(echo "$work"/*.whl)"
