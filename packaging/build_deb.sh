#!/bin/sh
# Makes a package for Debian and Ubuntu that carries the bundle: sh packaging/build_deb.sh
#   [-o DIR] [--bundle FOLDER]
#   -o DIR           where it goes; dist unless given
#   --bundle FOLDER  the bundle it carries, unpacked; made anew unless given
# Desktop entry, MIME type, icons and pages of the manual are made known by the triggers of the
# packages that keep these, so the package has no scripts of its own.
set -u
top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
into="$top/dist"
bundle=""
while [ $# -gt 0 ]; do
    case $1 in
        -o) into=${2:?-o wants a folder}; shift 2 ;;
        --bundle) bundle=${2:?--bundle wants a folder}; shift 2 ;;
        *) echo "usage: sh packaging/build_deb.sh [-o DIR] [--bundle FOLDER]" >&2; exit 2 ;;
    esac
done
extras="[package]"
folder=.venv-hobwort-package
wants_display=yes
wants_tools="binutils dpkg-dev xz-utils"
. "$top/packaging/setup.sh"
python="$top/$folder/bin/python"
version="$("$python" -c 'import designer; print(designer.__version__)')-1"
architecture=$(dpkg --print-architecture)

work=$(mktemp -d /tmp/hobwort_deb.XXXXXX) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM
if [ -z "$bundle" ]; then
    sh "$top/packaging/build_bundle.sh" -o "$work" --folder || exit 1
    bundle=$(echo "$work"/hobwort-*)
fi
[ -x "$bundle/hobwort" ] || { say "there is no bundle in $bundle"; exit 1; }
if [ -z "${SOURCE_DATE_EPOCH:-}" ]; then
    SOURCE_DATE_EPOCH=$(date -r "$bundle/hobwort" +%s)
fi
LC_ALL=C.UTF-8
export SOURCE_DATE_EPOCH LC_ALL

say "laying out hobwort $version for $architecture"
root="$work/root"
lib="$root/usr/lib/hobwort"
doc="$root/usr/share/doc/hobwort"
mkdir -p "$lib" "$root/usr/bin" "$doc" "$root/usr/share/lintian/overrides" "$root/DEBIAN" || exit 1
cp -a "$bundle/hobwort" "$bundle/lib" "$lib/" && cp -a "$bundle/share/." "$root/usr/share/" || exit 1
ln -s ../lib/hobwort/hobwort "$root/usr/bin/hobwort"

# Libraries of the system come from their own packages here.
licences="$lib/lib/designer/_resources/licences"
"$python" "$top/packaging/deb/system_libraries.py" "$licences/libraries.csv" |
    while read -r library text; do
        rm -f "$lib"/lib/$library "$licences/$text"
    done
rm -f "$licences/libraries.csv"

"$python" "$top/packaging/deb/documents.py" "$doc" "$version" || exit 1
ln -s ../../../lib/hobwort/lib/designer/_resources/licences "$doc/licences"
cp "$top/packaging/deb/overrides" "$root/usr/share/lintian/overrides/hobwort"

# What it is linked to. The plug-in for GTK's dialogs is left where there is no GTK.
mkdir "$work/debian" && printf 'Source: hobwort\n\nPackage: hobwort\nArchitecture: any\n' \
    >"$work/debian/control"
cd "$work" || exit 1
find "$lib" -type f \( -name '*.so' -o -name '*.so.*' -o -name hobwort \) \
    ! -name libqgtk3.so ! -name libcupsprintersupport.so >"$work/linked"
depends=$(tr '\n' '\0' <"$work/linked" | xargs -0 dpkg-shlibdeps -O --ignore-missing-info \
    "-l$lib/lib" "-l$lib/lib/PySide6/Qt/lib" "-l$lib/lib/PySide6" "-l$lib/lib/shiboken6" \
    "-l$lib/lib/numpy.libs" 2>"$work/shlibdeps" | sed -n 's/^shlibs:Depends=//p')
if [ -z "$depends" ] || grep -q "^dpkg-shlibdeps: error" "$work/shlibdeps"; then
    tail -n 5 "$work/shlibdeps"
    say "could not find out what it is linked to (the last lines stand above)"
    exit 1
fi

chmod -R u=rwX,go=rX "$root"
find "$lib/lib" -type f -exec chmod 644 {} +
sed -e "s|@VERSION@|$version|" -e "s|@ARCHITECTURE@|$architecture|" \
    -e "s|@SIZE@|$(du -sk --apparent-size "$root" | cut -f1)|" -e "s/@DEPENDS@/$depends/" \
    "$top/packaging/deb/control" >"$root/DEBIAN/control"
(cd "$root" && find usr -type f -print0 | sort -z | xargs -0 md5sum >DEBIAN/md5sums)
find "$root" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
mkdir -p "$into" || exit 1
package="$into/hobwort_${version}_$architecture.deb"
say "packing it (a minute)"
nice dpkg-deb --root-owner-group -Zxz --build "$root" "$package" >/dev/null || exit 1
say "made $package, $(du -m "$package" | cut -f1) MB"
