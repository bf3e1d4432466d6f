#!/usr/bin/env bash
# Sets up, then runs every check: lint, format, types, tests with doctests.
#
# bash tests/run.sh                the checks
# bash tests/run.sh --large        the long variants of the tests too, then the benchmarks
# Any other argument goes to pytest. Every part runs; the exit code is 1 if any part failed.
set -u
. "$(dirname "${BASH_SOURCE[0]}")/setup.sh"
cd "$root" || exit
set_up test || exit
# The program is started hundreds of times: what is compiled once is kept.
unset PYTHONDONTWRITEBYTECODE

failed=()
part() {
    say "== $1"
    shift
    "$@" </dev/null || failed+=("$*")
}

part "lint" "$python" -m ruff check --output-format concise
part "format" "$python" -m ruff format --check --output-format concise
case " $* " in
    *" --large "*)
        for file in $(grep -l '^if __name__' tests/benchmarks/*.py); do
            name=$(basename "$file" .py)
            part "benchmark $name" "$python" -m "tests.benchmarks.$name"
        done
        ;;
esac
# Types are checked beside the tests: told when they are done, in one piece.
told=$(mktemp)
trap 'rm -f "$told"' EXIT
{
    "$python" -m mypy </dev/null >"$told" 2>&1
    good=$?
    printf '\n== types\n%s\n' "$(cat "$told")"
    exit $good
} &
types=$!
# Last, so that pytest's count of tests is the closing line.
part "tests" "$python" -m pytest -q -n 3 --dist loadfile --no-loadscope-reorder "$@"

wait $types || failed+=("types")

for what in "${failed[@]+"${failed[@]}"}"; do say "FAILED: $what"; done
[ ${#failed[@]} -eq 0 ]
