"""Files are written whole or not at all: every step of the writing fails once, and the old file is still there."""

from __future__ import annotations

import errno
import multiprocessing
import os
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from tilespec.cli import output
from tilespec.cli.output import Result
from tilespec.cli.status import Stop


def files(folder: Path) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file()}


def test_new_and_old_files(tmp_path: Path) -> None:
    (tmp_path / "old.pdf").write_bytes(b"before")
    output.write([Result(str(tmp_path / "old.pdf"), b"after"), Result(str(tmp_path / "new.pdf"), b"")])
    assert files(tmp_path) == {"old.pdf": b"after", "new.pdf": b""}


def test_mode_is_kept_and_the_umask_obeyed(tmp_path: Path) -> None:
    old = tmp_path / "old.pdf"
    old.write_bytes(b"")
    old.chmod(0o640)
    before = os.umask(0o027)
    try:
        output.write([Result(str(old), b"x"), Result(str(tmp_path / "new.pdf"), b"x")])
    finally:
        os.umask(before)
    assert stat.S_IMODE(old.stat().st_mode) == 0o640
    assert stat.S_IMODE((tmp_path / "new.pdf").stat().st_mode) == 0o640


def test_a_link_stays_and_its_target_is_written(tmp_path: Path) -> None:
    (tmp_path / "shared").mkdir()
    (tmp_path / "job.pdf").symlink_to("shared/job.pdf")
    output.write([Result(str(tmp_path / "job.pdf"), b"x")])
    assert (tmp_path / "job.pdf").is_symlink()
    assert files(tmp_path / "shared") == {"job.pdf": b"x"}


def test_a_device_is_written_to_and_not_replaced(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    output.write([Result(str(pipe), b"through"), Result(os.devnull, b"x")])
    assert os.read(reader, 100) == b"through"
    os.close(reader)
    assert stat.S_ISFIFO(pipe.stat().st_mode) and stat.S_ISCHR(os.stat(os.devnull).st_mode)


def test_a_long_name_still_has_room_for_its_temporary_file(tmp_path: Path) -> None:
    name = "n" * 251 + ".pdf"
    output.write([Result(str(tmp_path / name), b"x")])
    assert files(tmp_path) == {name: b"x"}


def test_folders(tmp_path: Path) -> None:
    with pytest.raises(Stop) as caught:
        output.write([Result(str(tmp_path / "none" / "job.pdf"), b"x")])
    assert "does not exist" in caught.value.help
    with pytest.raises(Stop):
        output.write([Result(str(tmp_path), b"x")])
    assert files(tmp_path) == {}


def test_a_protected_file_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "signed.pdf").write_bytes(b"signed")
    monkeypatch.setattr(os, "access", lambda *_: False)     # also for the administrator who runs the tests
    with pytest.raises(Stop, match="write-protected"):
        output.write([Result(str(tmp_path / "signed.pdf"), b"x")])
    assert files(tmp_path) == {"signed.pdf": b"signed"}


class Cut(BaseException):
    """Like Ctrl-C: not an Exception."""


def failing(real: Callable[..., object], nth: int, fault: BaseException) -> Callable[..., object]:
    count = 0

    def call(*args: object, **named: object) -> object:
        nonlocal count
        count += 1
        if count == nth:
            raise fault
        return real(*args, **named)

    return call


FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


@pytest.mark.parametrize("fault", [FULL, Cut()], ids=["disk-full", "cut"])
@pytest.mark.parametrize("nth", [1, 2])
@pytest.mark.parametrize("step", ["open", "fdopen", "fchmod", "fsync", "replace"])
def test_fault_leaves_whole_files_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, nth: int, fault: BaseException
) -> None:
    old = {"a.pdf": b"old a", "b.pdf": b"old b"}
    for name, data in old.items():
        (tmp_path / name).write_bytes(data)
    with monkeypatch.context() as patch:
        patch.setattr(os, step, failing(getattr(os, step), nth, fault))
        with pytest.raises(Stop if isinstance(fault, OSError) else Cut):
            output.write([Result(str(tmp_path / name), b"new " + name.encode()) for name in old])
    # Before the first name is taken nothing has changed; after it, each file is the old or the new one, whole.
    expected = old if (step, nth) != ("replace", 2) else {"a.pdf": b"new a.pdf", "b.pdf": b"old b"}
    assert files(tmp_path) == expected


def test_disk_full_while_writing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.pdf").write_bytes(b"old")
    real = os.fdopen

    def full(handle: int, mode: str) -> object:
        # What is written goes to a device that is always full; the file beside the target stays empty.
        os.close(handle)
        return real(os.open("/dev/full", os.O_WRONLY), mode)

    with monkeypatch.context() as patch:
        patch.setattr(os, "fdopen", full)
        patch.setattr(os, "fchmod", lambda *_: None)
        with pytest.raises(Stop, match="a.pdf cannot be written: No space left"):
            output.write([Result(str(tmp_path / "a.pdf"), b"x" * 100)])
    assert files(tmp_path) == {"a.pdf": b"old"}


def test_create_never_touches_what_exists(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.tilespec"
    output.create(str(path), b"one")
    with pytest.raises(Stop, match="exists already"):
        output.create(str(path), b"two")
    (tmp_path / "dangling").symlink_to("nowhere")
    with pytest.raises(Stop, match="exists already"):
        output.create(str(tmp_path / "dangling"), b"two")
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", failing(os.fsync, 1, FULL))
        with pytest.raises(Stop, match="No space left"):
            output.create(str(tmp_path / "other"), b"two")
    assert files(tmp_path) == {"job.tilespec": b"one"}


def _write_many(path: str, letter: bytes) -> None:
    for _ in range(20):
        output.write([Result(path, letter * 50_000)])


def test_parallel_runs_leave_one_whole_file(tmp_path: Path) -> None:
    path = str(tmp_path / "job.pdf")
    context = multiprocessing.get_context("spawn")
    runs = [context.Process(target=_write_many, args=(path, letter)) for letter in (b"a", b"b")]
    for run in runs:
        run.start()
    for run in runs:
        run.join()
        assert run.exitcode == 0
    found = files(tmp_path)
    assert list(found) == ["job.pdf"] and found["job.pdf"] in (b"a" * 50_000, b"b" * 50_000)
