#!/bin/sh
# Puts Hobwort into the menus of the one who runs it, and takes it out again:
# sh install.sh [--remove]
# The folder stays where it is; what is written is below ~/.local (or $XDG_DATA_HOME).
set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P) || exit 1
data=${XDG_DATA_HOME:-$HOME/.local/share}
programs=$HOME/.local/bin

update() {
    command -v "$1" >/dev/null 2>&1 && "$@" >/dev/null 2>&1
    return 0
}

# Where each shell looks in a home for what a package would put elsewhere.
place_of() {
    case $1 in
        zsh/vendor-completions/*) echo "zsh/site-functions/${1##*/}" ;;
        fish/vendor_completions.d/*) echo "fish/vendor_completions.d/${1##*/}" ;;
        *) echo "$1" ;;
    esac
}

cd "$here/share" || exit 1
case ${1:-} in
    "")
        mkdir -p "$programs" || exit 1
        find . -type f | sed 's,^\./,,' | while read -r file; do
            place="$data/$(place_of "$file")"
            mkdir -p "$(dirname -- "$place")" && cp "$file" "$place" || exit 1
        done || exit 1
        ln -sfn "$here/hobwort" "$programs/hobwort" || exit 1
        # Not every desktop has ~/.local/bin on its path.
        entry="$data/applications/org.hobwort.hobwort.desktop"
        escaped=$(printf '%s' "$here/hobwort" | sed 's/[\\"`$]/\\\\&/g; s/%/%%/g; s/[&|\\]/\\&/g')
        sed -e "s|^Exec=hobwort|Exec=\"$escaped\"|" -e '/^TryExec=/d' \
            applications/org.hobwort.hobwort.desktop >"$entry" || exit 1
        echo "Hobwort is in your menus; in a terminal it is $programs/hobwort"
        ;;
    --remove)
        find . -type f | sed 's,^\./,,' | while read -r file; do
            rm -f "$data/$(place_of "$file")"
        done
        [ "$(readlink "$programs/hobwort")" = "$here/hobwort" ] && rm -f "$programs/hobwort"
        echo "Hobwort is out of your menus; your recipes are where they were, in $data/hobwort"
        ;;
    *)
        echo "usage: sh install.sh [--remove]" >&2
        exit 2
        ;;
esac
update update-desktop-database "$data/applications"
update update-mime-database "$data/mime"
update gtk-update-icon-cache -q -t -f "$data/icons/hicolor"
exit 0
