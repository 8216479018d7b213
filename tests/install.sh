# Sourced by the scripts: `need PROGRAM_OR_FILE PACKAGE ...` in pairs installs the packages whose program or file is
# missing. Debian and what is built on it; elsewhere it says what to install.
need() {
    missing=
    while [ $# -ge 2 ]; do
        case $1 in
        /*) [ -e "$1" ] || missing="$missing $2" ;;
        *) command -v "$1" >/dev/null 2>&1 || missing="$missing $2" ;;
        esac
        shift 2
    done
    [ -n "$missing" ] || return 0
    if ! command -v apt-get >/dev/null 2>&1; then
        echo "Please install what these Debian packages hold, then run this again:$missing" >&2
        exit 1
    fi
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null 2>&1; then
            echo "Please have these packages installed, then run this again:$missing" >&2
            exit 1
        fi
        as_root=sudo
    fi
    echo "Installing:$missing"
    # shellcheck disable=SC2086 # words on purpose
    { $as_root apt-get update -qq && $as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y -qq --no-install-recommends $missing; } </dev/null >/dev/null || {
        echo "apt-get could not install:$missing" >&2
        exit 1
    }
}
need_to_build() {
    need g++ g++ cmake cmake ninja ninja-build \
        /usr/include/boost/units/quantity.hpp libboost-dev \
        /usr/include/CLI/CLI.hpp libcli11-dev \
        /usr/include/toml++/toml.h libtomlplusplus-dev \
        /usr/include/nlohmann/json.hpp nlohmann-json3-dev \
        /usr/include/cairo/cairo.h libcairo2-dev pkg-config pkgconf \
        /usr/include/sqlite3.h libsqlite3-dev
    # Make would wait with all programs for the compiled unit, which they need only when they are linked. A build folder that
    # is there already keeps what it was made with.
    export CMAKE_GENERATOR=Ninja
}
