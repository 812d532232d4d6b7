"""A spec written in Vim, with the lines that `tilespec editor --set-up vim` prints."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.editor.set_up import lines, surroundings

UNREAD = 'job  "A"\nfloor 2.4x1.8\n  mirror 0,6 x 0.8\n'


@pytest.mark.slow
@pytest.mark.parametrize("program", ["vim", "nvim"])
def test_a_spec_is_indented_tidied_and_checked(program: str, tmp_path: Path) -> None:
    if shutil.which(program) is None or "-eval" in subprocess.run([program, "--version"], capture_output=True, text=True).stdout:
        pytest.skip(f"{program} with scripts is not installed")
    (tmp_path / "vimrc").write_text("set nocompatible\n" + lines("vim"), encoding="utf-8")
    (tmp_path / "unread.tilespec").write_text(UNREAD, encoding="utf-8")
    steps = [
        "edit unread.tilespec", "normal! gggqG", "write", "silent make!", "let seen = {}",
        'let seen.told = map(getqflist(), {_, one -> one.lnum . ":" . one.col . " " . one.text})',
        "edit! new.tilespec",
        'exe "normal! ijob \\"A\\"\\rref 7\\r\\rroom \\"R\\"\\rfloor 2 x 2\\rbase concrete\\rrooms\\rwall A\\rshower zone"',
        "let seen.lines = getline(1, '$')", "let seen.type = &filetype",
        'call writefile([json_encode(seen)], "seen")', "qall!",
    ]
    (tmp_path / "steps.vim").write_text("\n".join(steps) + "\n", encoding="utf-8")
    quiet = ["--headless"] if program == "nvim" else ["-e", "-s"]
    subprocess.run(
        [program, *quiet, "-u", "vimrc", "-i", "NONE", "-S", "steps.vim"], cwd=tmp_path, capture_output=True, timeout=120,
        env=surroundings(tmp_path),
    )
    seen = json.loads((tmp_path / "seen").read_text(encoding="utf-8"))
    # What is said about a line that cannot be read is no part of the text.
    assert (tmp_path / "unread.tilespec").read_text(encoding="utf-8") == 'job "A"\nfloor 2.4 x 1.8\n  mirror 0,6 x 0.8\n'
    places = [told.partition(" ")[0] for told in seen["told"]]
    assert "3:10" in places and "0:0" not in places, "each line is read by `errorformat`"
    assert seen["type"] == "tilespec"
    assert seen["lines"] == [
        'job "A"', "  ref 7", "", 'room "R"', "floor 2 x 2", "  base concrete", "  rooms", "wall A", "  shower zone",
    ]
