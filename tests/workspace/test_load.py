"""Which files a spec may use, and what is said where it may not."""

from __future__ import annotations

from pathlib import Path

import pytest

from tilespec.outcome import Outcome
from tilespec.workspace.host import DiskHost, MemoryHost, Unreadable
from tilespec.workspace.load import MAX_FILES, Workspace, load

STOCK = "grout fine class CG2WA\n"


def read(files: dict[str, str | bytes], library: str | None = None, links: dict[str, str] | None = None) -> Outcome[Workspace]:
    return load("/job/room.tilespec", MemoryHost(files, links or {}), library)


def said(outcome: Outcome[Workspace]) -> list[tuple[str, str]]:
    return [(d.name, d.message) for d in outcome.diagnostics]


def names(outcome: Outcome[Workspace]) -> list[str]:
    return [s.name for s in outcome.value.sources]


def test_a_file_beside_the_spec() -> None:
    found = read({"/job/room.tilespec": 'use "stock.tilespec"\nwall A\n', "/job/stock.tilespec": STOCK})
    assert not found.diagnostics
    assert names(found) == ["/job/room.tilespec", "/job/stock.tilespec"]
    assert [s.kind for t in found.value.trees for s in t.statements] == ["use", "wall", "product"]


def test_a_file_in_a_folder_below() -> None:
    found = read({"/job/room.tilespec": 'use "stock/grout.tilespec"\n', "/job/stock/grout.tilespec": STOCK})
    assert not found.diagnostics and names(found)[1:] == ["/job/stock/grout.tilespec"]


def test_a_stock_file_names_files_beside_itself() -> None:
    files = {
        "/job/room.tilespec": 'use "stock/all.tilespec"\n',
        "/job/stock/all.tilespec": 'use "grout.tilespec"\n',
        "/job/stock/grout.tilespec": STOCK,
    }
    found = read(files)
    assert not found.diagnostics
    assert names(found) == ["/job/room.tilespec", "/job/stock/grout.tilespec", "/job/stock/all.tilespec"]


def test_a_file_in_the_library() -> None:
    files = {"/job/room.tilespec": 'use "stock.tilespec"\n', "/firm/stock.tilespec": STOCK}
    assert not read(files, "/firm").diagnostics
    assert names(read(files, "/firm"))[1:] == ["/firm/stock.tilespec"]
    missing = read(files)
    assert said(missing) == [("file-unreadable", 'There is no file "stock.tilespec" beside the spec.')]
    assert missing.value.missing == ("/job/stock.tilespec",)


def test_beside_comes_before_the_library() -> None:
    files = {"/job/room.tilespec": 'use "s.tilespec"\n', "/job/s.tilespec": STOCK, "/firm/s.tilespec": "nonsense\n"}
    assert names(read(files, "/firm"))[1:] == ["/job/s.tilespec"]


def test_used_twice_is_read_once() -> None:
    files = {
        "/job/room.tilespec": 'use "a.tilespec"\nuse "b.tilespec"\nuse "./a.tilespec"\n',
        "/job/a.tilespec": 'use "c.tilespec"\n',
        "/job/b.tilespec": 'use "c.tilespec"\n',
        "/job/c.tilespec": "groutt fine\n",
    }
    found = read(files)
    assert names(found) == [f"/job/{n}.tilespec" for n in ("room", "c", "a", "b")]
    assert [d.name for d in found.diagnostics] == ["unknown-statement"]


@pytest.mark.parametrize("name", ["../stock.tilespec", "../job2/stock.tilespec", "below/../../stock.tilespec"])
def test_outside_the_folder(name: str) -> None:
    files = {"/job/room.tilespec": f'use "{name}"\n', "/stock.tilespec": STOCK, "/job2/stock.tilespec": STOCK}
    assert said(read(files)) == [("use-outside", f'"{name}" leads outside the spec\'s folder.')]
    assert names(read(files)) == ["/job/room.tilespec"]


@pytest.mark.parametrize(
    "name", ["/etc/stock.tilespec", "C:stock.tilespec", "C:\\stock.tilespec", "a\\b.tilespec", "http://x/y", " ", ""]
)
def test_no_place_beside_the_spec(name: str) -> None:
    found = read({"/job/room.tilespec": f'use "{name}"\n', "/etc/stock.tilespec": STOCK})
    assert said(found) == [("use-outside", f'"{name}" is not a file beside this one.')]


def test_outside_through_a_link() -> None:
    files = {"/job/room.tilespec": 'use "stock.tilespec"\n', "/secret": STOCK}
    found = read(files, links={"/job/stock.tilespec": "/secret"})
    assert [d.name for d in found.diagnostics] == ["use-outside"]
    # The same link is fine where it leads into the library.
    found = read({**files, "/firm/stock.tilespec": STOCK}, "/firm", {"/job/stock.tilespec": "/firm/stock.tilespec"})
    assert not found.diagnostics


def test_outside_through_a_link_on_disk(tmp_path: Path) -> None:
    job, other = tmp_path / "job", tmp_path / "other"
    job.mkdir()
    other.mkdir()
    (other / "stock.tilespec").write_text(STOCK, encoding="utf-8")
    (job / "stock.tilespec").symlink_to(other / "stock.tilespec")
    (job / "folder").symlink_to(other)
    spec = job / "room.tilespec"
    for name in ("stock.tilespec", "folder/stock.tilespec"):
        spec.write_text(f'use "{name}"\n', encoding="utf-8")
        assert [d.name for d in load(str(spec), DiskHost()).diagnostics] == ["use-outside"]
        assert not load(str(spec), DiskHost(), str(other)).diagnostics


def test_a_circle_shows_its_chain() -> None:
    files = {
        "/job/room.tilespec": 'use "a.tilespec"\n',
        "/job/a.tilespec": 'use "b.tilespec"\n',
        "/job/b.tilespec": 'use "a.tilespec"\n',
    }
    found = read(files)
    chain = "/job/a.tilespec uses /job/b.tilespec uses /job/a.tilespec"
    assert said(found) == [("use-circle", f"These files use each other in a circle: {chain}.")]
    assert found.diagnostics[0].primary.span.file == "/job/b.tilespec"


def test_a_file_that_uses_itself() -> None:
    assert said(read({"/job/room.tilespec": 'use "room.tilespec"\n'})) == [("use-circle", "/job/room.tilespec uses itself.")]


@pytest.mark.parametrize(
    ("data", "words"), [(b"\xff", "is not UTF-8 text"), (b"a\0b", "is not text"), (b"a\rb", "carriage return")]
)
def test_a_stock_file_that_cannot_be_read(data: bytes, words: str) -> None:
    found = read({"/job/room.tilespec": 'use "s.tilespec"\nwall A\n', "/job/s.tilespec": data})
    assert [d.name for d in found.diagnostics] == ["file-unreadable"]
    assert words in found.diagnostics[0].message
    assert [s.kind for s in found.value.trees[0].statements] == ["use", "wall"]


def test_a_spec_that_cannot_be_read_is_for_the_caller() -> None:
    with pytest.raises(Unreadable):
        read({})


def test_too_many_files() -> None:
    uses = "".join(f'use "s{n}.tilespec"\n' for n in range(MAX_FILES + 9))
    files = {"/job/room.tilespec": uses, **{f"/job/s{n}.tilespec": "" for n in range(MAX_FILES + 9)}}
    found = read(files)
    assert len(found.value.sources) == MAX_FILES
    assert [d.name for d in found.diagnostics] == ["too-many-files"]


def test_a_text_stands_in_for_the_specs_own_file() -> None:
    host = MemoryHost({"/job/room.tilespec": "old\n", "/job/stock.tilespec": STOCK})
    found = load("/job/room.tilespec", host, text='use "stock.tilespec"\n')
    assert not found.diagnostics and len(found.value.trees) == 2


def test_mistakes_of_a_stock_file_are_shown_in_it() -> None:
    found = read({"/job/room.tilespec": 'use "s.tilespec"\n', "/job/s.tilespec": "# ours\nfloorr 2.4 x 1.8\n"})
    assert [(d.name, d.primary.span.file, d.primary.span.start) for d in found.diagnostics] == [
        ("unknown-statement", "/job/s.tilespec", 7)
    ]
