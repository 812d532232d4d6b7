"""`tilespec compare`, with files and with revisions; `tilespec git-setup`."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest

from tilespec.cli.door import run
from tilespec.cli.history import Repository, RevisionHost
from tilespec.cli.status import Status
from tilespec.workspace.host import Reason, Unreadable

STOCK = "tile t 300x300x9 ceramic; box of 6\n"
SPEC = 'use "stock.tilespec"\nroom "Bath" height 2.4\nfloor 2.4 x 1.8\n  base concrete\n  tile t; joint 3\n'
ALONE = STOCK + SPEC.replace('use "stock.tilespec"\n', "")


def git(folder: Path, *words: str) -> str:
    settings = ["-c", "user.name=A. Tiler", "-c", "user.email=tiler@example.org", "-c", "commit.gpgsign=false"]
    done = subprocess.run(["git", *settings, "-C", str(folder), *words], check=True, capture_output=True, text=True)
    return done.stdout


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two commits: the joint changes in the second, and the box of the stock after it."""
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    folder = tmp_path / "jobs"
    (folder / "bath room").mkdir(parents=True)
    place = folder / "bath room"
    (place / "stock.tilespec").write_text(STOCK, encoding="utf-8")
    (place / "job.tilespec").write_text(SPEC, encoding="utf-8")
    git(tmp_path, "init", "-q", "jobs")
    git(folder, "add", "."), git(folder, "commit", "-qm", "one"), git(folder, "tag", "quoted")
    (place / "job.tilespec").write_text(SPEC.replace("joint 3", "joint 4"), encoding="utf-8")
    git(folder, "commit", "-qam", "two")
    (place / "stock.tilespec").write_text(STOCK.replace("box of 6", "box of 5"), encoding="utf-8")
    monkeypatch.chdir(place)
    return folder


# ---------------------------------------------------------------- two files


def test_two_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(tmp_path)
    Path("a.tilespec").write_text(ALONE, encoding="utf-8")
    Path("b.tilespec").write_text(ALONE.replace("joint 3", "joint 4"), encoding="utf-8")
    Path("c.tilespec").write_text("# The same\n" + ALONE, encoding="utf-8")
    assert run(["compare", "a.tilespec", "c.tilespec"]) is Status.FINE
    assert capsys.readouterr() == ("Nothing changed in the job.\n", "")
    assert run(["compare", "a.tilespec", "b.tilespec"]) is Status.SPEC
    told = capsys.readouterr().out
    assert told.startswith("old: a.tilespec\nnew: b.tilespec\n") and "joint 3 mm → 4 mm (+1 mm)" in told.replace("\u202f", " ")
    assert run(["compare", "a.tilespec", "b.tilespec", "--to", "json"]) is Status.SPEC
    assert json.loads(capsys.readouterr().out)["same"] is False
    Path("b.tilespec").write_text(ALONE.replace("2.4 x 1.8", "2,4 x 1.8"), encoding="utf-8")
    assert run(["compare", "a.tilespec", "b.tilespec"]) is Status.SPEC
    both = capsys.readouterr()
    assert "b.tilespec:3:" in both.err and "only messages are compared" in both.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["a.tilespec"], "name two specs"),
        (["a", "b", "c"], "name two specs"),
        (["a", "b", "--git", "HEAD"], "compares one spec"),
        (["stock.tilespec", "stock.tilespec"], "holds stock only"),
        (["job.tilespec", "--git", "a...b"], "two points"),
    ],
)
def test_wrong_usage(repository: Path, capsys: pytest.CaptureFixture[str], words: list[str], says: str) -> None:
    assert run(["compare", *words]) is Status.USAGE
    assert says in capsys.readouterr().err


# ---------------------------------------------------------------- revisions


def test_a_revision_has_the_stock_of_its_day(
    repository: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert run(["compare", "job.tilespec", "--git", "HEAD", "--to", "json"]) is Status.SPEC
    changes = json.loads(capsys.readouterr().out)["changes"]
    assert "tiling" not in changes and [x["what"] for x in changes["tiles"]] == ["box"]
    assert run(["compare", "job.tilespec", "--git", "quoted..HEAD", "--to", "json"]) is Status.SPEC
    form = json.loads(capsys.readouterr().out)
    assert "tiles" not in form["changes"] and [x["what"] for x in form["changes"]["tiling"]] == ["joint"]
    assert (form["old"], form["new"]) == ("job.tilespec at quoted", "job.tilespec at HEAD")
    # From anywhere, a hook of another repository included: the path counts, not the folder one is in.
    os.chdir(repository.parent)
    monkeypatch.setenv("GIT_DIR", ".git")
    monkeypatch.setenv("GIT_INDEX_FILE", ".git/index")
    assert run(["compare", "jobs/bath room/job.tilespec", "--git", "quoted..quoted"]) is Status.FINE


@pytest.mark.parametrize("revision", ["nowhere", "--output=x", "-h", "HEAD:job.tilespec", "a\nb"])
def test_what_is_no_revision(repository: Path, capsys: pytest.CaptureFixture[str], revision: str) -> None:
    assert run(["compare", "job.tilespec", f"--git={revision}.."]) is Status.ENVIRONMENT
    assert "knows no revision" in capsys.readouterr().err
    assert not list(repository.rglob("x"))


def test_a_spec_that_was_not_there(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("late.tilespec").write_text(ALONE, encoding="utf-8")
    assert run(["compare", "late.tilespec", "--git", "HEAD"]) is Status.ENVIRONMENT
    assert "late.tilespec at HEAD does not exist" in capsys.readouterr().err


def test_outside_a_repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    assert run(["compare", "job.tilespec", "--git", "HEAD"]) is Status.ENVIRONMENT
    assert "is in no git repository" in capsys.readouterr().err
    monkeypatch.setenv("PATH", str(tmp_path))
    assert run(["compare", "job.tilespec", "--git", "HEAD"]) is Status.ENVIRONMENT
    assert "git is not installed" in capsys.readouterr().err


def test_files_of_a_revision(repository: Path, tmp_path: Path) -> None:
    place = Path.cwd()
    os.symlink("job.tilespec", "link.tilespec")
    os.symlink("ring.tilespec", "ring.tilespec")
    Path("*.tilespec").write_text("# a name, no pattern\n", encoding="utf-8")
    git(repository, "add", "."), git(repository, "commit", "-qm", "links")
    for name in ("link.tilespec", "ring.tilespec", "*.tilespec", "job.tilespec"):
        os.unlink(name)
    outside = tmp_path / "library.tilespec"
    outside.write_text("# a library\n", encoding="utf-8")
    ask = Repository(".")
    host = RevisionHost(ask, ask.commit("HEAD"), "HEAD")
    assert host.read("link.tilespec").startswith("use ") and host.real("link.tilespec") == str(place / "job.tilespec")
    assert host.read("*.tilespec") == "# a name, no pattern\n"
    assert host.exists("job.tilespec") and not host.exists("nothing.tilespec") and not host.exists("..")
    assert host.read(str(outside)) == "# a library\n" and host.exists(str(outside))
    for name, reason in (("ring.tilespec", Reason.LINKS), ("../bath room", Reason.NOT_A_FILE), ("x\0y", Reason.MISSING)):
        with pytest.raises(Unreadable) as fault:
            host.read(name)
        assert fault.value.reason is reason, name


# ---------------------------------------------------------------- git-setup


def test_git_setup_says_and_sets(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["git-setup"]) is Status.FINE
    said = capsys.readouterr().out
    assert not (repository / ".gitattributes").exists()
    (repository / ".gitattributes").write_text("*.pdf binary", encoding="utf-8")
    for _ in range(2):
        assert run(["git-setup", "--write", "--quiet"]) is Status.FINE
        assert capsys.readouterr() == ("", "")
    assert (repository / ".gitattributes").read_text(encoding="utf-8") == "*.pdf binary\n*.tilespec diff=tilespec\n"
    for line in said.splitlines():
        if line.startswith("git config "):
            key = line.split()[2]
            assert git(repository, "config", key).strip() in line


def test_git_then_shows_statements_and_words(repository: Path) -> None:
    assert run(["git-setup", "--write", "--quiet"]) is Status.FINE
    spec = Path("job.tilespec")
    filler = "  # a\n" * 8
    before = SPEC + 'wall A\n  base render\n' + filler + "  tile t 300x600; joint 3\n"
    spec.write_text(before, encoding="utf-8")
    git(repository, "add", "."), git(repository, "commit", "-qm", "long")
    spec.write_text(before.replace("t 300x600; joint 3\n", "t 300x900; joint 3\n"), encoding="utf-8")
    shown = git(repository, "diff", "--word-diff=plain", "--", "bath room/job.tilespec")
    assert any(line.startswith("@@") and line.endswith("@@ wall A") for line in shown.splitlines())
    # The size that changed, and not the whole line or the whole size.
    assert "  tile t 300x[-600-]{+900+}; joint 3" in shown


def test_git_setup_outside_a_repository(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    assert run(["git-setup", "--write"]) is Status.ENVIRONMENT
    assert "is in no git repository" in capsys.readouterr().err
