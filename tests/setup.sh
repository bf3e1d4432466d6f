# Sourced by examples/make.sh and tests/run.sh: makes .venv ready and leaves its Python in $python.
#
# set_up run     the program and what it needs to run
# set_up test    the same, and what the tests need
#
# Ready already: nothing is done and nothing is fetched. As root on Debian or Ubuntu, missing system
# packages are installed; otherwise they are named. Only Debian's packages and PyPI are asked.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
python=$root/.venv/bin/python

say() { printf '%s\n' "$*" >&2; }

# The first Python that is new enough, by the name it goes by here.
system_python() {
    local name
    for name in python3.11 python3 python3.12 python3.13 python3.14; do
        if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            printf '%s\n' "$name"
            return
        fi
    done
    say "Python 3.11 or newer is needed and none was found: install python3.11, or python3 where"
    say "your Debian or Ubuntu has 3.11 or newer under that name."
    return 4
}

# The Debian packages that $1 (a Python) and the PDF writer lack here, one a line.
missing_packages() {
    if ! "$python" -m pip --version >/dev/null 2>&1 && ! "$1" -c 'import ensurepip' 2>/dev/null; then
        "$1" -c 'import sys; print("python3.%d-venv" % sys.version_info[1])'
    fi
    "$1" - <<'PYTHON'
import ctypes
from pathlib import Path

# What WeasyPrint loads: https://doc.courtbouillon.org/weasyprint/stable/first_steps.html
LIBRARIES = {
    "libpango-1.0.so.0": "libpango-1.0-0",
    "libpangoft2-1.0.so.0": "libpangoft2-1.0-0",
    "libharfbuzz-subset.so.0": "libharfbuzz-subset0",
}
for library, package in LIBRARIES.items():
    try:
        ctypes.CDLL(library)
    except OSError:
        print(package)
if not Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf").exists():
    print("fonts-dejavu-core")
PYTHON
}

# What .venv must match to count as ready: a changed pyproject.toml, Python or place undoes it.
stamp() {
    "$python" - "$root" <<'PYTHON'
import hashlib
import sys
from pathlib import Path

text = Path(sys.argv[1], "pyproject.toml").read_bytes()
print(hashlib.sha256(text).hexdigest(), sys.version.split()[0], sys.argv[1])
PYTHON
}

# Installs the Debian packages $* where that may be done, otherwise names them. Goes on either way.
install() {
    local log
    if [ "$(id -u)" != 0 ] || ! command -v apt-get >/dev/null; then
        say "Missing here: $*"
        say "On Debian or Ubuntu, as root: apt-get install $*"
        return
    fi
    say "Installing Debian packages: $*"
    log=$({ apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -qq -y \
        --no-install-recommends -o DPkg::Lock::Timeout=120 "$@"; } </dev/null 2>&1) ||
        say "$log
That failed; going on without."
}

set_up() {
    local what=$1 base packages target
    if "$python" -c pass 2>/dev/null && [ "$(cat "$root/.venv/ready-$what" 2>/dev/null)" = "$(stamp)" ]
    then
        return
    fi
    base=$(system_python) || return
    mapfile -t packages < <(missing_packages "$base")
    if [ ${#packages[@]} -gt 0 ]; then install "${packages[@]}"; fi
    # By itself, because not every Ubuntu has it as a package: the tests of pages are then skipped.
    if [ "$what" = test ] && ! command -v chromium >/dev/null; then install chromium; fi
    if ! "$python" -m pip --version >/dev/null 2>&1; then
        say "Making .venv with $base"
        if ! "$base" -m venv --clear "$root/.venv" >/dev/null 2>&1; then
            say "No virtual environment can be made without ${packages[0]:-python3-venv}."
            return 4
        fi
    fi
    case $what in
        run) target=$root ;;
        test) target="$root[test]" ;;
    esac
    say "Installing Python packages into .venv"
    "$python" -m pip install -q --disable-pip-version-check -e "$target" </dev/null >&2 || return 4
    stamp >"$root/.venv/ready-$what"
    if [ "$what" = test ]; then stamp >"$root/.venv/ready-run"; fi
}
