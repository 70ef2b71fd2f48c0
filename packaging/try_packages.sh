#!/bin/sh
# Makes wheel, bundle and package and tries them: sh packaging/try_packages.sh [--all]
#   [--pictures FOLDER]
#   --all               makes bundle and package a second time, elsewhere, and compares; tries the
#                       package on Debian 13 and Ubuntu 24.04 too, and README's two commands
#   --pictures FOLDER   keeps the pictures of the windows there
# Each is used as those would to whom it is handed; try_packages.py tells how.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
all=no
[ "${1:-}" = --all ] && all=yes && shift
extras="[package]"
folder=.venv-hobwort-package
wants_display=yes
wants_tools="debootstrap dpkg-dev binutils xz-utils xvfb xdotool imagemagick weston"
. "$top/packaging/setup.sh"

work=$(mktemp -d /tmp/hobwort_packages.XXXXXX) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM

# Makes both out of a checkout, into a folder, and unpacks the bundle there as a brewer does.
make_both() {
    sh "$1/packaging/build_bundle.sh" -o "$2" || return 1
    tar -C "$2" -xJf "$2"/hobwort-*.tar.xz || return 1
    sh "$1/packaging/build_deb.sh" -o "$2" --bundle "$(echo "$2"/hobwort-*-"$(uname -m)")"
}

# The same sources in another folder, set up anew, by another whose clock and files are otherwise.
make_again() {
    mkdir "$work/elsewhere" "$work/again" || return 1
    (cd "$top" && git ls-files -z -co --exclude-standard | tar -c --null -T -) |
        tar -x -C "$work/elsewhere" || return 1
    (umask 027 && TZ=Pacific/Auckland LANG=de_DE.UTF-8 make_both "$work/elsewhere" "$work/again")
}

code=0
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(git -C "$top" log -1 --format=%ct)}
export SOURCE_DATE_EPOCH
make_both "$top" "$work" || exit 1
if [ "$all" = yes ]; then
    make_again || exit 1
    for made in "$work"/*.tar.xz "$work"/*.deb; do
        if cmp "$made" "$work/again/${made##*/}"; then
            say "made twice, the same to the byte: ${made##*/}"
        else
            code=1
        fi
    done
    rm -rf "$work/elsewhere" "$work/again"
    set -- --releases --checkout "$@"
fi
"$top/$folder/bin/python" -m pip wheel -q --disable-pip-version-check --no-deps -w "$work" "$top" ||
    exit 1
"$top/$folder/bin/python" "$top/packaging/try_packages.py" \
    --bundle "$(echo "$work"/hobwort-*-"$(uname -m)")" --deb "$(echo "$work"/*.deb)" \
    --wheel "$(echo "$work"/*.whl)" "$@" || code=1
exit "$code"
