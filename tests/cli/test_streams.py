"""Whatever streams, names, fonts and signals a process meets, it ends by an exit code of the table
and says what was wrong: no trace of Python's, nothing lost without a word.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.cli.processes import JOB, closing, run

FULL = Path("/dev/full")

pytestmark = pytest.mark.skipif(not FULL.exists(), reason="needs a device that is always full")


@pytest.fixture(autouse=True)
def _a_job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(JOB, "utf-8")


@pytest.mark.parametrize(
    "arguments",
    [["check", "job.toml"], ["--help"], ["new", "other.toml"], ["setups", "list", "--json"]],
    ids=" ".join,
)
def test_results_that_cannot_be_shown_are_4(arguments: list[str]) -> None:
    with FULL.open("w", encoding="utf-8") as full:
        done = run(*arguments, stdout=full, env={"XDG_DATA_HOME": "."})
    said = "sequencer: what was found cannot be shown: No space left on device\n"
    assert (done.returncode, done.stderr) == (4, said)


def test_a_closed_stdout_is_4_and_no_file_is_taken_for_it() -> None:
    done = run("plan", "job.toml", "--no-pdf", preexec_fn=closing(1))
    said = "sequencer: what was found cannot be shown: Bad file descriptor\n"
    assert (done.returncode, done.stderr) == (4, said)
    made = Path("sheets/plan.json").read_text("utf-8")
    assert made.startswith("{")
    assert made.rstrip().endswith("}")


@pytest.mark.parametrize("closed", [(2,), (1, 2), (0, 1, 2)])
def test_with_nobody_to_tell_the_code_still_says_it(closed: tuple[int, ...]) -> None:
    good, wrong = (run("check", file, preexec_fn=closing(*closed)) for file in ("job.toml", "no"))
    assert good.returncode == (4 if 1 in closed else 0)
    assert wrong.returncode == 3


def test_messages_that_cannot_be_written_change_no_code() -> None:
    with FULL.open("w", encoding="utf-8") as full:
        assert run("check", "no.toml", stderr=full).returncode == 3


def test_a_name_in_another_encoding_plans() -> None:
    name = b"caf\xe9.toml"
    Path(os.fsdecode(name)).write_text(JOB, "utf-8")
    done = run("plan", name, "--no-pdf")
    assert (done.returncode, done.stderr) == (0, "")
    assert "caf\ufffd" in Path("sheets/plan.json").read_text("utf-8")


def test_without_any_font_the_rest_is_written_and_it_is_4() -> None:
    Path("fonts.conf").write_text("<fontconfig></fontconfig>", "utf-8")
    done = run("plan", "job.toml", env={"FONTCONFIG_FILE": str(Path("fonts.conf").resolve())})
    assert done.returncode == 4
    assert done.stderr.startswith(
        "sequencer: no PDF: there are no fonts; print plan.html from a browser, the pages "
    )
    assert sorted(path.name for path in Path("sheets").iterdir()) == [
        "manifest.json",
        "parts.csv",
        "parts.ods",
        "plan.html",
        "plan.json",
    ]


def test_a_screen_of_an_old_code_page_shows_inches_plainly() -> None:
    Path("job.toml").write_text(JOB.replace('"22"', '"200"'), "utf-8")
    done = run("check", "job.toml", env={"PYTHONIOENCODING": "cp1252"})
    assert done.returncode == 3
    assert 'an opening 200" high, over 120"' in done.stderr


def test_files_with_carriage_returns_are_read() -> None:
    text = JOB.replace("\n", "\r\n").replace('"22"', '"2,2"')
    Path("job.toml").write_bytes(text.encode())
    done = run("check", "job.toml")
    assert done.stderr.startswith("job.toml:7:12: ")
    assert "\r" not in done.stderr


LOADING = """
import signal, sys
from sequencer.__main__ import entry

class Sent:
    left = {left}
    def find_spec(self, name, path=None, target=None):
        Sent.left -= 1
        if Sent.left == 0:
            signal.raise_signal(signal.{name})

sys.meta_path.insert(0, Sent())
entry()
"""


@pytest.mark.parametrize(
    ("left", "name"), [(1, "SIGINT"), (40, "SIGINT"), (90, "SIGTERM"), (120, "SIGINT")]
)
def test_interrupted_while_it_is_loaded_is_130(left: int, name: str) -> None:
    done = run("check", "job.toml", code=LOADING.format(left=left, name=name))
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "interrupted\n")


ENDING = """
import signal, sys
from sequencer import cli
from sequencer.__main__ import entry

was = cli.main
def main(arguments):
    code = was(arguments)
    signal.raise_signal(signal.SIGINT)
    return code
cli.main = main
entry()
"""


def test_interrupted_at_the_very_end_is_130() -> None:
    done = run("check", "job.toml", code=ENDING)
    assert (done.returncode, done.stderr) == (130, "interrupted\n")


BROKEN = """
import sys
from sequencer.__main__ import entry
sys.modules["sequencer.batch"] = None
entry()
"""
FAULTY = """
from sequencer import batch
from sequencer.__main__ import entry
def read_batch(*given):
    raise {error}
batch.read_batch = read_batch
entry()
"""


def test_a_fault_of_the_program_is_told_with_its_place() -> None:
    done = run("check", "job.toml", code=FAULTY.format(error="KeyError('slot')"))
    assert done.returncode == 1
    assert done.stderr.startswith(
        "sequencer: a fault of this program, none of your files: KeyError: 'slot', at sequencer/"
    )


@pytest.mark.parametrize(
    ("error", "says"),
    [
        ("MemoryError", "there is too little memory"),
        ("ImportError(name='jinja2')", "a library is missing or broken: jinja2; install"),
        ("OSError(5, 'Input/output error', 'job.toml')", "job.toml: Input/"),
    ],
)
def test_what_the_surroundings_lack_is_4(error: str, says: str) -> None:
    done = run("check", "job.toml", code=FAULTY.format(error=error))
    assert done.returncode == 4
    assert done.stderr.startswith(f"sequencer: {says}")


def test_a_broken_installation_is_4() -> None:
    done = run("check", "job.toml", code=BROKEN)
    assert done.returncode == 4
    said = "sequencer: a library is missing or broken: sequencer.batch; install the program again\n"
    assert done.stderr == said


def test_where_no_word_of_the_program_can_be_loaded_python_says_what_is_missing() -> None:
    done = run("check", "job.toml", code=BROKEN.replace("sequencer.batch", "msgspec"))
    assert done.returncode == 4
    assert done.stderr.startswith("sequencer: ")
    assert "msgspec" in done.stderr
    assert done.stderr.count("\n") == 1
