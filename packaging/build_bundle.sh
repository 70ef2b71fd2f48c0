#!/bin/sh
# Makes a bundle, one folder with all that Hobwort needs, for Linux on machines of this kind:
# sh packaging/build_bundle.sh [-o DIR] [--folder]
#   -o DIR     where it goes; dist unless given
#   --folder   the folder as it is, not packed into an archive
# The same sources make the same bytes on the same system (SOURCE_DATE_EPOCH names another day).
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
into="$top/dist"
packed=yes
while [ $# -gt 0 ]; do
    case $1 in
        -o) into=${2:?-o wants a folder}; shift 2 ;;
        --folder) packed=no; shift ;;
        *) echo "usage: sh packaging/build_bundle.sh [-o DIR] [--folder]" >&2; exit 2 ;;
    esac
done
extras="[package]"
folder=.venv-hobwort-package
wants_display=yes  # what Qt is linked to has to be here, to be told from what is missing
wants_tools="binutils file xz-utils"
. "$top/packaging/setup.sh"
python="$top/$folder/bin/python"

# Debian's Python is made of one piece; the library that a bundle carries is a package of its own.
if ! "$python" - <<'EOF'; then
import pathlib, sys, sysconfig
told = sysconfig.get_config_var
places = [told("LIBDIR"), f"/usr/lib/{told('MULTIARCH')}"]
sys.exit(not any(pathlib.Path(place, told("INSTSONAME")).is_file() for place in places))
EOF
    log=$(mktemp)
    install_system_packages "libpython${version%.*}" || exit 1
    rm -f "$log"
fi

name="hobwort-$("$python" -c 'import designer; print(designer.__version__)')-linux-$(uname -m)"
if [ -z "${SOURCE_DATE_EPOCH:-}" ]; then
    SOURCE_DATE_EPOCH=$(git -C "$top" log -1 --format=%ct 2>/dev/null) ||
        SOURCE_DATE_EPOCH=$(date -r "$top/resources/CHANGES.md" +%s)
fi
PYTHONHASHSEED=0
LC_ALL=C.UTF-8
export SOURCE_DATE_EPOCH PYTHONHASHSEED LC_ALL

work=$(mktemp -d /tmp/hobwort_bundle.XXXXXX) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM
say "making $name (half a minute)"
if ! nice "$python" -m PyInstaller --noconfirm --clean --log-level WARN --distpath "$work/made" \
    --workpath "$work/work" "$top/packaging/bundle/hobwort.spec" >"$work/log" 2>&1; then
    tail -n 15 "$work/log"
    say "PyInstaller could not make it (its last lines stand above)"
    exit 1
fi
made="$work/made/$name"
mv "$work/made/hobwort" "$made" || exit 1
# A Python built from source brings what debuggers want; of Qt and NumPy nothing is changed.
strip --strip-unneeded "$made"/lib/libpython3* "$made"/lib/python3.*/lib-dynload/*.so || exit 1
ln -s lib/designer/_resources/licences "$made/licences"
cp "$top/packaging/bundle/README.txt" "$top/packaging/bundle/install.sh" "$made" || exit 1
"$python" "$top/packaging/share_files.py" "$made/share" || exit 1
find "$made" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
chmod -R u=rwX,go=rX "$made"

mkdir -p "$into" || exit 1
into=$(CDPATH='' cd -- "$into" && pwd)
if [ "$packed" = no ]; then
    rm -rf "${into:?}/$name"
    mv "$made" "$into/" || exit 1
    say "made $into/$name, $(du -sm "$into/$name" | cut -f1) MB"
    exit 0
fi
# Of the ways to pack it: xz 44 MB in 46 s, its highest step 43 MB in 101 s, zstd 19 48 MB in 75 s,
# zstd 12 53 MB in 6 s, gzip 61 MB in 17 s. It is made once and fetched often.
archive="$into/$name.tar.xz"
say "packing it (a minute)"
tar -C "$work/made" -c --sort=name --owner=0 --group=0 --numeric-owner "$name" |
    nice xz -6 -T2 >"$archive.part" && mv "$archive.part" "$archive" || exit 1
say "made $archive, $(du -m "$archive" | cut -f1) MB"
