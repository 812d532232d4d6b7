"""A spec written in a real editor, with the lines that `tilespec editor --set-up neovim` prints."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.editor.set_up import lines, surroundings

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


# The same file read again and another one: one server speaks for the folder. Then what is typed.
SERVERS = """
local function wait(what) assert(vim.wait(60000, what, 50), "nothing came") end
wait(function() return #vim.diagnostic.get(0) == 1 end)
for _ = 1, 3 do vim.cmd("edit!") end
vim.cmd("edit other.tilespec")
vim.wait(300)
local seen = { servers = #(vim.lsp.get_clients or vim.lsp.get_active_clients)(), keys = vim.fn.maparg("K", "n") ~= "" }
vim.cmd('normal! ijob "A"\\rref 7\\r\\rroom "R" height 2.4\\rfloor 2 x 2\\rbase concrete\\rwall A\\rbase concrete')
seen.lines = vim.api.nvim_buf_get_lines(0, 0, -1, false)
seen.complete = vim.o.completeopt
wait(function() return #vim.diagnostic.get(0) > 0 end)
seen.typing = vim.diagnostic.config(nil, vim.diagnostic.get(0)[1].namespace).update_in_insert
vim.fn.writefile({ vim.fn.json_encode(seen) }, "seen")
"""
ALONE = """
local said = {}
vim.notify = function(text) table.insert(said, text) end
vim.cmd("edit job.tilespec")
vim.wait(500)
vim.fn.writefile({ vim.fn.json_encode({ said = said, coloured = vim.bo.syntax }) }, "seen")
"""


def seen_by(folder: Path, setup: str, first: str, steps: str) -> dict[str, object]:
    """What the steps wrote down, in a Neovim with this set-up."""
    if shutil.which("nvim") is None:
        pytest.skip("nvim is not installed (apt-get install neovim)")
    (folder / "job.tilespec").write_text(SPEC, encoding="utf-8")
    (folder / "setup.lua").write_text(setup, encoding="utf-8")
    (folder / "steps.lua").write_text(f"local ok, fault = pcall(function()\n{steps}\nend)\n"
                                      'if not ok then vim.fn.writefile({ tostring(fault) }, "fault") end\nvim.cmd("qall!")\n',
                                      encoding="utf-8")  # fmt: skip
    subprocess.run(
        ["nvim", "--headless", "-u", "setup.lua", "-i", "NONE", "-c", first, "-c", "luafile steps.lua"],
        cwd=folder, capture_output=True, timeout=300, check=False, env=surroundings(folder),
    )  # fmt: skip
    assert not (folder / "fault").exists(), (folder / "fault").read_text(encoding="utf-8")
    seen: dict[str, object] = json.loads((folder / "seen").read_text(encoding="utf-8"))
    return seen


@pytest.mark.slow
def test_one_server_for_a_folder_and_lines_that_indent(tmp_path: Path) -> None:
    seen = seen_by(tmp_path, lines("neovim"), "edit job.tilespec", SERVERS)
    assert (seen["servers"], seen["keys"], seen["complete"]) == (1, True, "menuone,noinsert")
    assert seen["typing"] is True, "messages come while a line is typed"
    assert seen["lines"] == [
        'job "A"', "  ref 7", "", 'room "R" height 2.4', "floor 2 x 2", "  base concrete", "wall A", "  base concrete",
    ]


@pytest.mark.slow
def test_a_program_that_is_not_there_is_told_once(tmp_path: Path) -> None:
    setup = lines("neovim").partition("\n")[0] + '\nrequire("tilespec").setup({ command = { "no-such", "editor" } })\n'
    seen = seen_by(tmp_path, setup, "set notermguicolors", ALONE)
    assert seen["said"] == [
        "tilespec: there is no program `no-such`. `tilespec editor --set-up neovim` says the line for your init.lua."
    ]
    assert seen["coloured"] == "tilespec"


@pytest.mark.slow
def test_a_spec_is_opened_mended_written_and_saved(tmp_path: Path) -> None:
    seen = seen_by(tmp_path, lines("neovim"), "edit job.tilespec", STEPS)
    assert seen["first"] == [5, 7, "T0201"]
    assert seen["action"] == "write field (T0201)"
    assert "tile-backer board" in seen["offered"]
    assert seen["hover"].startswith("tile field: 300 mm x 300 mm x 9 mm, porcelain")
    assert seen["places"] == 3
    wanted = SPEC.replace("feild", "field") + "wall A\n  base tile-backer board\n  tile field; joint 3\n"
    written = (tmp_path / "job.tilespec").read_text(encoding="utf-8")
    assert [line for line in written.split("\n") if line] == wanted.replace("field", "ground").rstrip("\n").split("\n")
