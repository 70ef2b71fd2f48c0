# Sets Hobwort up in its checkout; read by run.sh and test.sh, which give:
#   top    the checkout
#   extras "[dev]" for the tests, "" for the program
#   wants_display  "yes" where a window is to be opened on X11 or Wayland
# Installs what is missing: system libraries with apt-get, Python packages into .venv-hobwort.

say() { printf 'hobwort: %s\n' "$*"; }

qt_libraries="libgl1 libegl1 libxkbcommon0 libfontconfig1 libdbus-1-3 libglib2.0-0 fonts-dejavu-core"
display_libraries="libxcb-cursor0 libxkbcommon-x11-0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1
 libxcb-randr0 libxcb-render-util0 libxcb-shape0 libxcb-xkb1 libx11-xcb1 libxcb-sync1 libxcb-xfixes0
 libxcb-util1 libcups2 libwayland-cursor0"

installed() {
    # Ubuntu renamed some libraries (libglib2.0-0 is libglib2.0-0t64 there): either name will do.
    for name in "$1" "$1t64"; do
        if [ "$(dpkg-query -W -f '${Status}' "$name" 2>/dev/null)" = "install ok installed" ]; then
            return 0
        fi
    done
    return 1
}

install_system_packages() {
    missing=""
    for package in "$@"; do
        installed "$package" || missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    if ! command -v apt-get >/dev/null 2>&1; then
        say "this is not Debian or Ubuntu; install the like of these yourself:$missing"
        return 0
    fi
    as_root=""
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null 2>&1; then
            say "not root and no sudo; ask for these packages:$missing"
            return 0
        fi
        as_root="sudo"
    fi
    say "installing system packages:$missing"
    if ! { $as_root apt-get update -q &&
        $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends $missing
    } >"$log" 2>&1; then
        tail -n 5 "$log"
        say "apt-get failed (its last lines stand above); going on with what there is"
    fi
}

python_works() {
    "$1" -c 'import sys; sys.exit(not (3, 11) <= sys.version_info[:2] <= (3, 13))' 2>/dev/null
}

choose_python() {
    for candidate in ${HOBWORT_PYTHON:-} python3 python3.13 python3.12 python3.11; do
        if command -v "$candidate" >/dev/null 2>&1 && python_works "$candidate"; then
            python=$candidate
            return 0
        fi
    done
    return 1
}

make_environment() {
    environment="$top/.venv-hobwort"
    version=$("$python" -c 'import sys; print("%d.%d.%d" % sys.version_info[:3])')
    stamp=$( { cat "$top/pyproject.toml"; echo "$version $extras"; } | cksum)
    if [ -x "$environment/bin/python" ] && [ "$(cat "$environment/stamp" 2>/dev/null)" = "$stamp" ]; then
        return 0
    fi
    say "making a private Python $version environment in .venv-hobwort (a minute or two)"
    # A venv that was begun and not finished, or of another Python, is made anew.
    if ! "$python" -m venv --clear "$environment" >"$log" 2>&1; then
        cat "$log"
        say "could not make the environment; is python3-venv installed?"
        return 1
    fi
    if ! "$environment/bin/python" -m pip install -q --disable-pip-version-check -e "$top$extras" >"$log" 2>&1; then
        tail -n 15 "$log"
        say "could not install the Python packages (pip's last lines stand above)"
        return 1
    fi
    printf '%s\n' "$stamp" >"$environment/stamp"
}

log=$(mktemp) || exit 1
trap 'rm -f "$log"' EXIT

if ! choose_python; then
    install_system_packages python3
    if ! choose_python; then
        say "Python 3.11, 3.12 or 3.13 is needed; found $(python3 --version 2>&1)."
        say "Debian 12 and later have one; elsewhere set HOBWORT_PYTHON to it."
        exit 1
    fi
fi
# The system's own Python has no venv module on a bare machine; others bring theirs.
if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
    install_system_packages "python$("$python" -c 'import sys; print("%d.%d" % sys.version_info[:2])')-venv"
fi
# shellcheck disable=SC2086 # lists of packages
install_system_packages $qt_libraries
if [ "$wants_display" = yes ]; then
    # shellcheck disable=SC2086
    install_system_packages $display_libraries
fi
make_environment || exit 1
rm -f "$log"
trap - EXIT
