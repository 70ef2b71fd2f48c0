# shellcheck shell=sh disable=SC2154 # top, extras and wants_display come from the caller
# Sets Hobwort up in its checkout; read by the scripts beside it, which give:
#   top            the checkout
#   extras         "[dev]" for the tests, "[package]" for what makes packages, "" for the program
#   folder         where the Python packages go, within the checkout; .venv-hobwort unless given
#   wants_tools    packages of the system that the script itself needs
#   wants_display  "yes" where a window is to be opened on X11 or Wayland
#   wants_browser  "yes" where the page for a phone is to be tried in a browser
# Installs what is missing: system libraries with apt-get, Python packages into that folder.
# From outside: HOBWORT_PYTHON names the Python to use, HOBWORT_SYSTEM_PACKAGES=no leaves the
# system's packages alone, HOBWORT_WHEELS names a folder of Python packages (wheels) that are taken
# instead of those of the network.

qt_libraries="libgl1 libegl1 libxkbcommon0 libfontconfig1 libdbus-1-3 libglib2.0-0 fonts-dejavu-core"
display_libraries="libxcb-cursor0 libxkbcommon-x11-0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1
 libxcb-randr0 libxcb-render-util0 libxcb-shape0 libxcb-xkb1 libx11-xcb1 libxcb-sync1 libxcb-xfixes0
 libxcb-util1 libcups2 libwayland-cursor0"

say() { printf 'hobwort: %s\n' "$*"; }

# What pip and apt-get write where their servers cannot be reached.
unreachable="Temporary failure in name resolution|Could not resolve|Name or service not known\
|Failed to establish a new connection|Network is unreachable|Could not connect to|Cannot initiate\
 the connection|No route to host|Connection timed out|Connection failed"

no_connection() { grep -qE "$unreachable" "$log" 2>/dev/null; }

# --- the system's packages -----------------------------------------------------------------

installed() {
    # Debian 13 and Ubuntu 24.04 renamed some libraries: libcups2 is libcups2t64 there.
    for name in "$1" "$1t64"; do
        if [ "$(dpkg-query -W -f '${Status}' "$name" 2>/dev/null)" = "install ok installed" ]; then
            return 0
        fi
    done
    return 1
}

find_missing() {
    missing=""
    for package in "$@"; do
        installed "$package" || missing="$missing $package"
    done
    [ -n "$missing" ]
}

apt_install() {
    $as_root apt-get update -q &&
        $as_root env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=120 \
            install -q -y --no-install-recommends "$@"
}

# Installs those of the named packages that are missing; false where some still are.
install_system_packages() {
    [ "${HOBWORT_SYSTEM_PACKAGES:-yes}" != no ] || return 0
    if ! command -v dpkg-query >/dev/null 2>&1; then
        say "this is no Debian or Ubuntu: should Qt miss anything, install the like of: $*"
        return 0
    fi
    find_missing "$@" || return 0
    as_root=""
    if [ "$(id -u)" -ne 0 ]; then
        as_root="sudo"
    fi
    if [ -n "$as_root" ] && ! command -v sudo >/dev/null 2>&1; then
        say "system packages are missing, and neither are you root nor is there sudo."
    else
        say "installing system packages:$missing"
        # shellcheck disable=SC2086 # a list of packages
        if ! apt_install $missing >"$log" 2>&1; then
            if no_connection; then
                say "there is no connection to the servers of the system's packages; connect, and run it again."
            else
                tail -n 5 "$log"
            fi
        fi
    fi
    find_missing "$@" || return 0
    say "still missing; have them installed, as root: apt-get install$missing"
    return 1
}

# Debian packs Chromium twice: small and without a window, or whole. Ubuntu has it as a snap alone.
install_browser() {
    browser_is_there && return 0
    for package in chromium-headless-shell chromium; do
        install_system_packages "$package" && browser_is_there && return 0
    done
    say "there is no Chromium: the tests of the page for a phone are skipped."
}

browser_is_there() {
    for name in chromium-headless-shell chromium chromium-browser; do
        command -v "$name" >/dev/null 2>&1 && return 0
    done
    return 1
}

# --- Python and its packages ---------------------------------------------------------------

python_works() {
    "$1" -c 'import sys; sys.exit(not (3, 11) <= sys.version_info[:2] <= (3, 13))' 2>/dev/null
}

choose_python() {
    for python in python3 python3.13 python3.12 python3.11; do
        if command -v "$python" >/dev/null 2>&1 && python_works "$python"; then
            return 0
        fi
    done
    return 1
}

find_python() {
    if [ -n "${HOBWORT_PYTHON:-}" ]; then
        python=$HOBWORT_PYTHON
        python_works "$python" && return 0
        say "HOBWORT_PYTHON is $python, which is no Python 3.11, 3.12 or 3.13."
        return 1
    fi
    choose_python && return 0
    command -v python3 >/dev/null 2>&1 || install_system_packages python3
    choose_python && return 0
    found=$(python3 --version 2>/dev/null) || found="none"
    say "Python 3.11, 3.12 or 3.13 is needed; python3 here is: $found"
    say "Debian 12 and Ubuntu 24.04 bring one; elsewhere set HOBWORT_PYTHON to one."
    return 1
}

# On Debian a Python comes without the means to make environments; others bring theirs.
find_venv() {
    "$python" -c 'import ensurepip, venv' 2>/dev/null && return 0
    install_system_packages "python${version%.*}-venv"
    "$python" -c 'import ensurepip, venv' 2>/dev/null && return 0
    say "this Python cannot make environments (its venv module is missing)."
    return 1
}

# The stamp is written last, so an environment without one was begun and not finished.
environment_is_ready() {
    [ -x "$environment/bin/python" ] || return 1
    stamped=$(cat "$environment/stamp" 2>/dev/null) || return 1
    # What serves the tests serves the program.
    [ "$stamped" = "$stamp$extras" ] || [ "$stamped" = "${stamp}[dev]" ]
}

environment_can_grow() {
    [ -x "$environment/bin/python" ] && [ "$(cat "$environment/stamp" 2>/dev/null)" = "$stamp" ]
}

pip_install() {
    if [ -n "${HOBWORT_WHEELS:-}" ]; then
        "$environment/bin/python" -m pip install -q --disable-pip-version-check \
            --no-index --find-links "$HOBWORT_WHEELS" -e "$top$extras"
    else
        "$environment/bin/python" -m pip install -q --disable-pip-version-check -e "$top$extras"
    fi
}

tell_of_pip() {
    if [ -n "${HOBWORT_WHEELS:-}" ]; then
        tail -n 5 "$log"
        say "could not install from the folder of wheels, $HOBWORT_WHEELS (pip's last lines stand above)"
        say "On a machine with a connection fill it: pip download -d FOLDER hatchling editables '.$extras'"
    elif no_connection; then
        say "there is no connection to the servers of the Python packages."
        say "Connect and run it again, or give a folder of wheels: HOBWORT_WHEELS=FOLDER"
    else
        tail -n 15 "$log"
        say "could not install the Python packages (pip's last lines stand above)"
    fi
}

make_environment() {
    if [ ! -w "$top" ]; then
        say "cannot write in $top, where the Python packages would go."
        say "Copy the folder to a place of your own and run the script there."
        return 1
    fi
    if [ -n "${HOBWORT_WHEELS:-}" ] && [ ! -d "$HOBWORT_WHEELS" ]; then
        say "HOBWORT_WHEELS is $HOBWORT_WHEELS, which is no folder."
        return 1
    fi
    say "setting up Python $version in $environment (a minute or two)"
    if ! environment_can_grow; then
        set_aside
        if ! "$python" -m venv --clear "$environment" >"$log" 2>&1; then
            tail -n 5 "$log"
            say "could not make the environment (the last lines stand above)"
            put_back
            return 1
        fi
    fi
    if ! pip_install >"$log" 2>&1; then
        tell_of_pip
        put_back
        return 1
    fi
    printf '%s\n' "$stamp$extras" >"$environment/stamp"
    rm -rf "$environment.before"
}

# What was there is of use until there is something newer. One without a stamp was only begun.
set_aside() {
    [ -e "$environment/stamp" ] || return 0
    rm -rf "$environment.before"
    mv "$environment" "$environment.before"
}

put_back() {
    [ -d "$environment.before" ] || return 0
    rm -rf "$environment"
    mv "$environment.before" "$environment"
}

# --- the steps -----------------------------------------------------------------------------

set_up() {
    environment="$top/${folder:-.venv-hobwort}"
    find_python || return 1
    version=$("$python" -c 'import sys; print("%d.%d.%d" % sys.version_info[:3])')
    # A moved checkout needs a new environment: paths are written into it.
    stamp=$({ cat "$top/pyproject.toml"; printf '%s\n' "$top" "$version"; } | cksum)
    # Missing libraries are named and not fatal: the forecast needs none of them.
    # shellcheck disable=SC2086 # lists of packages
    install_system_packages $qt_libraries
    if [ "$wants_display" = yes ]; then
        # shellcheck disable=SC2086
        install_system_packages $display_libraries
    fi
    if [ -n "${wants_tools:-}" ]; then
        # shellcheck disable=SC2086
        install_system_packages $wants_tools || return 1
    fi
    if [ "${wants_browser:-no}" = yes ]; then
        install_browser
    fi
    environment_is_ready || { find_venv && make_environment; }
}

# Two set-ups of one checkout at a time would clear each other's environment.
wait_for_the_other() {
    command -v flock >/dev/null 2>&1 || return 0
    exec 9<"$top"
    flock -n 9 && return 0
    say "waiting for another set-up of this folder"
    flock 9
}

# The caller's words must not lead Python to packages of elsewhere.
unset PYTHONHOME PYTHONPATH
log=$(mktemp) || exit 1
trap 'rm -f "$log"' EXIT
trap 'say "interrupted; run it again to go on"; exit 130' INT TERM
wait_for_the_other
set_up || exit 1
exec 9<&-
rm -f "$log"
trap - EXIT INT TERM
