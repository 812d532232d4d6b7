"""A spec written in a real editor, with the set-up that the README gives."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
SPEC = """job "A room"
tile field 300x300x9 porcelain; box of 11
room "Bath" height 2.4
floor 2.4 x 1.8
  base concrete
  tile feild; joint 3
"""

# Opens, waits for the message, mends it, types a line, completes it, asks, renames, tidies, saves. What it saw goes to a file.
STEPS = """
local seen = {}
local function wait(what) assert(vim.wait(60000, what, 50), "nothing came") end
local function ask(method, more)
  local params = vim.lsp.util.make_position_params(0, "utf-16")
  for key, value in pairs(more or {}) do params[key] = value end
  local answers = assert(vim.lsp.buf_request_sync(0, method, params, 60000))
  local _, first = next(answers)
  return first and first.result
end
local function messages() return vim.tbl_map(function(d) return d.code end, vim.diagnostic.get(0)) end

wait(function() return #vim.diagnostic.get(0) == 1 end)
local d = vim.diagnostic.get(0)[1]
seen.first = { d.lnum, d.col, d.code }
vim.api.nvim_win_set_cursor(0, { d.lnum + 1, d.col })
local range = { start = { line = d.lnum, character = d.col }, ["end"] = { line = d.end_lnum, character = d.end_col } }
local actions = ask("textDocument/codeAction", { range = range, context = { diagnostics = {} } })
seen.action = actions[1].title
vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
wait(function() return #vim.diagnostic.get(0) == 0 end)

vim.api.nvim_buf_set_lines(0, -1, -1, false, { "wall A", "  base tile-", "  tile field; joint 3" })
vim.api.nvim_win_set_cursor(0, { 8, 12 })
seen.offered = vim.tbl_map(function(i) return i.label end, ask("textDocument/completion").items)
vim.api.nvim_buf_set_lines(0, 7, 8, false, { "  base tile-backer board" })
wait(function() return #vim.diagnostic.get(0) == 0 end)
vim.api.nvim_win_set_cursor(0, { 9, 8 })
seen.hover = ask("textDocument/hover").contents.value
seen.places = #ask("textDocument/references", { context = { includeDeclaration = true } })
vim.lsp.util.apply_workspace_edit(ask("textDocument/rename", { newName = "ground" }), "utf-16")
wait(function() return #vim.diagnostic.get(0) == 0 end)
vim.api.nvim_buf_set_lines(0, 3, 4, false, { "floor 2.4x1.8" })
local edits = ask("textDocument/formatting", { options = { tabSize = 2, insertSpaces = true } })
vim.lsp.util.apply_text_edits(edits, vim.api.nvim_get_current_buf(), "utf-16")
vim.cmd("write")
vim.fn.writefile({ vim.fn.json_encode(seen) }, "seen")
"""


@pytest.mark.slow
def test_a_spec_is_opened_mended_written_and_saved(tmp_path: Path) -> None:
    if shutil.which("nvim") is None:
        pytest.skip("nvim is not installed (apt-get install neovim)")
    pytest.importorskip("pygls", reason="pygls is not installed")
    setup = re.search(r"```lua\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert setup is not None
    tool = tmp_path / "tilespec"
    tool.write_text(f'#!/bin/sh\nPYTHONPATH="{ROOT}" exec "{sys.executable}" -m tilespec "$@"\n', encoding="utf-8")
    tool.chmod(0o755)
    (tmp_path / "job.tilespec").write_text(SPEC, encoding="utf-8")
    (tmp_path / "setup.lua").write_text(setup[1], encoding="utf-8")
    (tmp_path / "steps.lua").write_text(f"local ok, fault = pcall(function()\n{STEPS}\nend)\n"
                                        'if not ok then vim.fn.writefile({ tostring(fault) }, "fault") end\nvim.cmd("qall!")\n',
                                        encoding="utf-8")  # fmt: skip
    editors = ROOT / "grammar" / "editors" / "vim"
    subprocess.run(
        ["nvim", "--headless", "-u", "NONE", "-i", "NONE", "--cmd", f"set runtimepath^={editors}", "-c", "filetype plugin on",
         "-c", "luafile setup.lua", "-c", "edit job.tilespec", "-c", "luafile steps.lua"],
        cwd=tmp_path, capture_output=True, timeout=300, check=False,
        env={**os.environ, "PATH": f"{tmp_path}{os.pathsep}{os.environ['PATH']}", "XDG_STATE_HOME": str(tmp_path)},
    )  # fmt: skip
    assert not (tmp_path / "fault").exists(), (tmp_path / "fault").read_text(encoding="utf-8")
    seen = json.loads((tmp_path / "seen").read_text(encoding="utf-8"))
    assert seen["first"] == [5, 7, "T0201"]
    assert seen["action"] == "write field (T0201)"
    assert "tile-backer board" in seen["offered"]
    assert seen["hover"].startswith("tile field: 300 mm x 300 mm x 9 mm, porcelain")
    assert seen["places"] == 3
    wanted = SPEC.replace("feild", "field") + "wall A\n  base tile-backer board\n  tile field; joint 3\n"
    written = (tmp_path / "job.tilespec").read_text(encoding="utf-8")
    assert [line for line in written.split("\n") if line] == wanted.replace("field", "ground").rstrip("\n").split("\n")
