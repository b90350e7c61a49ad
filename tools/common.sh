# Shared by tools/start and tools/test: packages, configuration, build. Source it from the root.

say() { printf '%s\n' "$*" >&2; }

packages() { sed -e 's/#.*//' -e '/^[[:space:]]*$/d' tools/packages.txt; }

missing_packages() {
    local package
    for package in $(packages); do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' ||
            printf '%s ' "$package"
    done
}

install_missing() {
    command -v dpkg-query >/dev/null || {
        say "This is not a Debian or Ubuntu machine: install the equivalents of tools/packages.txt."
        return 0
    }
    local missing
    missing=$(missing_packages)
    [ -z "$missing" ] && return 0
    local become=""
    if [ "$(id -u)" -ne 0 ]; then
        if command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [ -t 0 ]; }; then
            become="sudo"
        else
            say "Some packages are missing. Run this once, then try again:"
            say "  sudo apt-get update && sudo apt-get install -y --no-install-recommends $missing"
            exit 3
        fi
    fi
    say "Installing: $missing"
    $become apt-get update -qq >&2
    # shellcheck disable=SC2086
    DEBIAN_FRONTEND=noninteractive $become apt-get install -y -qq --no-install-recommends $missing >&2
}

# Configures once and builds the targets given; quiet unless something is wrong.
build() {
    local folder=build/release log
    log=$(mktemp)
    if [ ! -f "$folder/build.ninja" ]; then
        say "Configuring…"
        cmake --preset release >"$log" 2>&1 || { cat "$log" >&2; exit 1; }
    fi
    say "Building…"
    cmake --build "$folder" --target "$@" >"$log" 2>&1 || { tail -60 "$log" >&2; exit 1; }
    rm -f "$log"
}
