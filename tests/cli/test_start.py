"""`tilespec start` with facts and as a dialogue: what it writes compiles, is tidy, and asks what the job asks."""

from __future__ import annotations

import io
import itertools
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tilespec import pipeline
from tilespec.cli.door import run
from tilespec.cli.starter import Facts, Unfit, starter
from tilespec.cli.status import Status
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Job
from tilespec.practice.lookup import PARENTS
from tilespec.resources import data_text
from tilespec.syntax.tidy import tidy
from tilespec.workspace.host import MemoryHost


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def job_of(text: str) -> Job:
    compiled = pipeline.compile("job.tilespec", MemoryHost({"/job.tilespec": text}))
    assert [d.message for d in compiled.diagnostics if d.severity is Severity.ERROR] == []
    assert compiled.plan is not None
    return compiled.plan.job


def asked(text: str) -> list[str]:
    return re.findall(r"^# ask: (.*)$", text, re.MULTILINE)


SIZES = (None, "2.4 x 1.8"), (None, "2.4")
SHOWERS = ("", "D A", "b c, 0.8 x 1.2")
TILES = (None, "600x300x9"), (None, "100x100x8")
EVERY = tuple(itertools.product(*SIZES, SHOWERS, (False, True), *TILES))
# Each fact said and not said, with a shower and without.
SOME = (
    (None, None, "", False, None, None), ("2.4 x 1.8", None, "D A", True, None, "100x100x8"),
    (None, "2.4", "b c, 0.8 x 1.2", True, "600x300x9", None), ("2.4 x 1.8", "2.4", "D A", False, "600x300x9", "100x100x8"),
)  # fmt: skip


@pytest.mark.parametrize("practice", PARENTS)
@pytest.mark.parametrize("said", [pytest.param(SOME, id="some"), pytest.param(EVERY, id="every", marks=pytest.mark.slow)])
def test_combinations_are_sound_tidy_and_ask_what_the_job_asks(
    practice: str, said: tuple[tuple[str | None, str | None, str, bool, str | None, str | None], ...],
) -> None:
    for size, height, shower, heated, tile, floor_tile in said:
        made = starter(Facts(practice, None, size, height, shower, heated, tile, floor_tile))
        assert tidy(made.text) == made.text
        job = job_of(made.text)
        wanted = {q.text for q in job.questions}
        assert set(asked(made.text)) == wanted and len(asked(made.text)) == made.open == len(wanted)
        assert job.family == practice and bool(job.rooms[0].showers) == bool(shower)
        assert (job.rooms[0].heating is not None) == heated
        head = made.text.partition("\njob")[0]
        names = {"size of the floor": size, "height": height, "wall tile": tile, "floor tile": floor_tile}
        assert [words in head for words in names] == [fact is None for fact in names.values()]


@pytest.mark.parametrize(
    ("facts", "fact"),
    [
        (Facts(size="2,4 x 1.8"), "size"),
        (Facts(size="2.4 x 1.8\ntile x 1x1"), "size"),
        (Facts(size="2.4 x 1.8; heated"), "size"),
        (Facts(size="240 x 180"), "size"),
        (Facts(size=""), "size"),
        (Facts(height="24"), "height"),
        (Facts(height="2.4 # high"), "height"),
        (Facts(shower="A C"), "shower"),
        (Facts(shower="left"), "shower"),
        (Facts(shower="D A, 9 x 9"), "shower"),
        (Facts(tile="600"), "tile"),
        (Facts(floor_tile="0.6x0.3"), "floor_tile"),
        (Facts(room='x"\njob'), "room"),
        (Facts(room=" "), "room"),
        (Facts(title='x"'), "title"),
        (Facts(title=" "), "title"),
        (Facts(size="2.4 x 1.8 x 2"), "size"),
        (Facts(tile="y"), "tile"),
        (Facts(room="\x1b[31m"), "room"),
    ],
)
def test_what_makes_no_spec_is_told_by_its_name(facts: Facts, fact: str) -> None:
    with pytest.raises(Unfit) as fault:
        starter(facts)
    assert fault.value.fact == fact and fault.value.message


@pytest.mark.parametrize("name", ["Bath # 2", "Bad; oben", "Küche é", "ask: x", "300 x 300", "浴室"])
def test_a_room_may_be_called_anything(name: str) -> None:
    made = starter(Facts(room=name, shower="D A"))
    assert tidy(made.text) == made.text and job_of(made.text).rooms[0].name == name
    assert set(asked(made.text)) == {q.text for q in job_of(made.text).questions}


def test_facts_on_the_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(tmp_path)
    words = ["--practice", "UK", "--room", "Ensuite", "--size", "2.4x1.8", "--height", "2.4", "--shower", "D A", "--heated"]
    assert run(["start", *words, "--title", "The annexe", "--tile", "600x300x9"]) is Status.FINE
    told = capsys.readouterr().err
    text = Path("job.tilespec").read_text(encoding="utf-8")
    assert re.match(r"wrote job.tilespec; \d+ questions open, listed at its end\nNext: ", told)
    assert text.count('job "The annexe"\n') == 1
    assert 'room "Ensuite"' in text and "tile floor-tile 600x300x9\n" in text and "practice UK" in text
    assert run(["check", "job.tilespec"]) is Status.FINE
    assert run(["tidy", "--check", "job.tilespec"]) is Status.FINE
    assert run(["start", *words]) is Status.ENVIRONMENT
    capsys.readouterr()
    for wrong in (["--size", "2,4x1.8"], ["--practice", "XX"], ["--commented", "--heated"]):
        assert run(["start", "new.tilespec", *wrong]) is Status.USAGE
        assert wrong[0] in capsys.readouterr().err and not Path("new.tilespec").exists()
    assert run(["start", "new.tilespec", "--commented"]) is Status.FINE
    assert Path("new.tilespec").read_text(encoding="utf-8") == data_text("templates/start.tilespec")


def dialogue(monkeypatch: pytest.MonkeyPatch, *answers: str) -> Status:
    monkeypatch.setattr(sys, "stdin", Terminal("".join(f"{a}\n" for a in answers)))
    monkeypatch.setattr(sys, "stdout", Terminal())
    return run(["start"])


def test_enter_takes_the_default(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert dialogue(monkeypatch, *[""] * 9) is Status.FINE
    assert Path("job.tilespec").read_text(encoding="utf-8") == starter(Facts(shower="D A")).text


def test_what_somebody_says_is_not_marked_as_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Even where it is what stands in brackets."""
    monkeypatch.chdir(tmp_path)
    assert dialogue(monkeypatch, "", "", "", "2.4 x 1.8", *[""] * 5) is Status.FINE
    text = Path("job.tilespec").read_text(encoding="utf-8")
    assert "# Nobody has said the height of the room" in text and text == starter(Facts(size="2.4 x 1.8", shower="D A")).text


def test_a_wrong_answer_is_asked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    answers = ['Over the "shop"', "Over the shop", "XX", "us", "0.9 x 0.9", "Hall bath", "y", "8 ft x 5,5 ft", "8 ft x 5 ft", ""]
    answers += ["A C", "none", "perhaps", "y", "", "12 in x 12 in x 1 ft", "8 in x 8 in x 3/8 in"]
    assert dialogue(monkeypatch, *answers) is Status.FINE
    said = Facts("US", "Hall bath", "8 ft x 5 ft", heated=True, floor_tile="8 in x 8 in x 3/8 in", title="Over the shop")
    assert Path("job.tilespec").read_text(encoding="utf-8") == starter(said).text
    told = capsys.readouterr().err
    assert "It is one of EN, DE" in told and "That looks like a size. The size comes next" in told
    # Of the floor a size is asked, not a line of a spec.
    assert "`y` is no size of a floor. Write its two sides, as in 8 ft x 6 ft." in told and "`floor" not in told
    asked_for = ("Title", "Whose limits", "Name", "Size", "Height", "Shower", "heated", "Wall tile", "Floor tile")
    places = [told.index(words) for words in asked_for]
    assert places == sorted(places)


def test_nothing_is_asked_in_vain_or_left_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert dialogue(monkeypatch, "", "UK") is Status.INTERRUPTED        # the input ends
    assert list(tmp_path.iterdir()) == []
    Path("job.tilespec").write_text("mine", encoding="utf-8")
    capsys.readouterr()
    assert dialogue(monkeypatch, *[""] * 9) is Status.ENVIRONMENT
    told = capsys.readouterr().err
    assert "exists already" in told and "Title of the job" not in told
    assert Path("job.tilespec").read_text(encoding="utf-8") == "mine"


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_ctrl_c_on_a_real_terminal(tmp_path: Path) -> None:
    import pty

    ours, theirs = pty.openpty()
    # The shells of some machines start programs deaf to Ctrl-C.
    code = "import signal, sys; signal.signal(signal.SIGINT, signal.default_int_handler)\n" \
           "from tilespec.cli.door import run; sys.exit(run(['start']))"
    place = {**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])}
    child = subprocess.Popen(
        [sys.executable, "-c", code], stdin=theirs, stdout=theirs, stderr=theirs, cwd=tmp_path, env=place, start_new_session=True,
    )
    os.close(theirs)
    seen, end = b"", time.monotonic() + 60
    while b"Title of the job" not in seen and time.monotonic() < end:
        seen += os.read(ours, 1000)
    time.sleep(0.3)
    child.send_signal(signal.SIGINT)
    status = child.wait(timeout=30)
    os.close(ours)
    assert status == Status.INTERRUPTED and list(tmp_path.iterdir()) == []
