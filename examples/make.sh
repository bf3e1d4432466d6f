#!/usr/bin/env bash
# Sets up, then plans one example and writes its sheets into ./sheets.
#
# bash examples/make.sh                    the pair of doors in examples/wall-cabinet
# bash examples/make.sh pantry             another folder of examples/
# Further arguments go to `sequencer plan`, for instance --paper a4.
set -u
. "$(dirname "${BASH_SOURCE[0]}")/../tests/setup.sh"
set_up run || exit

example=wall-cabinet
case ${1-} in
    "" | -*) ;;
    *) example=$1; shift ;;
esac
folder=$root/examples/$example
if [ ! -f "$folder/job.toml" ]; then
    say "There is no examples/$example/job.toml. The examples:"
    for job in "$root"/examples/*/job.toml; do say "  $(basename "$(dirname "$job")")"; done
    exit 2
fi
shop=()
if [ -f "$folder/shop.toml" ]; then shop=(--shop "$folder/shop.toml"); fi
# Settings that somebody saved are theirs: an example looks the same everywhere.
export XDG_DATA_HOME=$root/.venv/data
exec "$python" -m sequencer plan "$folder/job.toml" "${shop[@]+"${shop[@]}"}" -o sheets "$@"
