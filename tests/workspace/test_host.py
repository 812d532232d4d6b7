"""Reading of files: strict, with the byte where it goes wrong."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from tilespec.workspace.host import SIZE_LIMIT, DiskHost, MemoryHost, Reason, Unreadable, decode


def refused(data: bytes) -> tuple[Reason, int | None]:
    with pytest.raises(Unreadable) as caught:
        decode(data, "job.tilespec")
    return caught.value.reason, caught.value.offset


@pytest.mark.parametrize(
    ("data", "text"),
    [
        (b"", ""),
        (b"floor 2 x 1\n", "floor 2 x 1\n"),
        (b"\xef\xbb\xbffloor\r\n  heated\r\n", "floor\n  heated\n"),
        ("wall A # Fuß, 7½ in, ×".encode(), "wall A # Fuß, 7½ in, ×"),
        ("a\u2028b".encode(), "a\u2028b"),
        ("\U0001f6bf".encode(), "\U0001f6bf"),
        # The mark is only a mark at the start; in the middle it is for the language to refuse, with its place.
        (b"a\xef\xbb\xbfb", "a\ufeffb"),
    ],
)
def test_accepted(data: bytes, text: str) -> None:
    assert decode(data, "job.tilespec") == text


@pytest.mark.parametrize(
    ("data", "reason", "offset"),
    [
        (b"floor\nwall \xff A", Reason.NOT_UTF_8, 11),
        (b"\xef\xbb\xbfwall \xe9", Reason.NOT_UTF_8, 8),
        (b"caf\xc3", Reason.NOT_UTF_8, 3),
        (b"x\xc0\xafy", Reason.NOT_UTF_8, 1),                      # overlong form
        (b"x\xed\xa0\x80y", Reason.NOT_UTF_8, 1),                  # lone surrogate
        ("floor 2".encode("utf-16"), Reason.UTF_16, 0),            # with a mark
        ("floor 2".encode("utf-16-le"), Reason.UTF_16, 1),
        ("floor 2".encode("utf-16-be"), Reason.UTF_16, 0),
        (b"floor\0 2 x 1 and quite a lot of text", Reason.NUL, 5),
        (b"floor\rwall", Reason.LONE_CR, 5),
        (b"floor\r\nwall\r", Reason.LONE_CR, 11),
        (b"\xef\xbb\xbfa\r\r\n", Reason.LONE_CR, 4),
    ],
)
def test_refused_with_its_byte(data: bytes, reason: Reason, offset: int) -> None:
    assert refused(data) == (reason, offset)


def reason_of(path: Path | str) -> Reason:
    with pytest.raises(Unreadable) as caught:
        DiskHost().read(str(path))
    assert str(caught.value).startswith(str(path))
    return caught.value.reason


def test_disk_reads_text(tmp_path: Path) -> None:
    (tmp_path / "a b.tilespec").write_bytes(b"floor\r\n")
    host = DiskHost()
    assert host.read(str(tmp_path / "a b.tilespec")) == "floor\n"
    assert host.exists(str(tmp_path / "a b.tilespec"))
    assert not host.exists(str(tmp_path))


def test_disk_refuses_what_is_no_regular_file(tmp_path: Path) -> None:
    assert reason_of(tmp_path / "none") is Reason.MISSING
    (tmp_path / "file").write_bytes(b"")
    assert reason_of(tmp_path / "file" / "below") is Reason.MISSING
    assert reason_of(tmp_path) is Reason.NOT_A_FILE
    assert reason_of("/dev/null") is Reason.NOT_A_FILE
    assert reason_of("a\0b") is Reason.MISSING
    os.mkfifo(tmp_path / "pipe")
    assert reason_of(tmp_path / "pipe") is Reason.NOT_A_FILE       # and does not wait for a writer
    (tmp_path / "loop").symlink_to("loop")
    assert reason_of(tmp_path / "loop") is Reason.LINKS


@pytest.mark.parametrize(
    ("code", "reason"),
    [(errno.EACCES, Reason.DENIED), (errno.EPERM, Reason.DENIED), (errno.EIO, Reason.DISK), (errno.ESTALE, Reason.DISK)],
)
def test_disk_says_when_it_may_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, reason: Reason) -> None:
    def fail(*_: object) -> int:
        raise OSError(code, "the system's words")

    monkeypatch.setattr(os, "open", fail)
    assert reason_of(tmp_path / "job") is reason


def test_size_limit_on_both_sides(tmp_path: Path) -> None:
    (tmp_path / "just").write_bytes(b"#" * SIZE_LIMIT)
    (tmp_path / "over").write_bytes(b"#" * (SIZE_LIMIT + 1))
    assert len(DiskHost().read(str(tmp_path / "just"))) == SIZE_LIMIT
    assert reason_of(tmp_path / "over") is Reason.TOO_LARGE
    with pytest.raises(Unreadable):
        MemoryHost({"/over": "#" * (SIZE_LIMIT + 1)}).read("/over")


def test_real_follows_links(tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "stock.tilespec").write_bytes(b"")
    (tmp_path / "here").symlink_to("there")
    real = DiskHost().real(str(tmp_path / "here" / "." / "stock.tilespec"))
    assert real == os.path.realpath(tmp_path / "there" / "stock.tilespec")


def test_memory_behaves_like_disk() -> None:
    host = MemoryHost({"/job/a.tilespec": "floor\r\n", "/etc/b": b"x\xff"}, {"/job/b.tilespec": "../etc/b"})
    assert host.read("/job/./a.tilespec") == "floor\n"
    assert host.real("/job/b.tilespec") == "/etc/b"
    assert host.exists("/job/b.tilespec") and not host.exists("/job")
    with pytest.raises(Unreadable) as caught:
        host.read("/job/b.tilespec")
    assert (caught.value.reason, caught.value.path) == (Reason.NOT_UTF_8, "/job/b.tilespec")
    with pytest.raises(Unreadable) as caught:
        MemoryHost({}, {"/a": "b", "/b": "a"}).real("/a")
    assert caught.value.reason is Reason.LINKS


def test_every_reason_has_words_and_help() -> None:
    for reason in Reason:
        fault = Unreadable(reason, "job.tilespec", 3)
        assert fault.words.endswith("(byte 3)") and fault.help.endswith((".", "?"))


def test_what_lies_in_a_folder(tmp_path: Path) -> None:
    (tmp_path / "b.tilespec").write_text("", encoding="utf-8")
    (tmp_path / "a.tilespec").write_text("", encoding="utf-8")
    (tmp_path / "folder").mkdir()
    assert DiskHost().names(str(tmp_path)) == ("a.tilespec", "b.tilespec")
    assert DiskHost().names(str(tmp_path / "none")) == ()
    assert MemoryHost({"/x/b": "", "/x/a": "", "/x/y/c": "", "/d": ""}).names("/x") == ("a", "b")
