"""The lines that an editor's own settings need, with the places where tilespec is installed."""

from __future__ import annotations

import json
import shlex
from collections.abc import Callable, Sequence


def neovim(program: Sequence[str], files: str, library: str | None) -> str:
    command = [*program, "editor", *(["--library", library] if library else [])]
    listed = ", ".join(map(_quoted, command))
    return f'vim.opt.runtimepath:append({_quoted(files + "/vim")})\nrequire("tilespec").setup({{ command = {{ {listed} }} }})\n'


def vim(program: Sequence[str], files: str, library: str | None) -> str:
    folder = f"{files}/vim".replace("\\", "\\\\").replace(",", "\\,").replace(" ", "\\ ")
    return (
        f"let g:tilespec_program = {_vim(shlex.join(program))}\n"
        f"set runtimepath+={folder}\n"
        "runtime ftdetect/tilespec.vim\n"
        "filetype plugin indent on\nsyntax on\n"
    )


def emacs(program: Sequence[str], files: str, library: str | None) -> str:
    command = [*program, "editor", *(["--library", library] if library else [])]
    return (
        f'(load {_quoted(files + "/emacs/tilespec-mode.el")})\n'
        f"(setq tilespec-command '({' '.join(map(_quoted, command))}))\n"
        "(require 'eglot)\n"
        "(add-hook 'tilespec-mode-hook #'eglot-ensure)\n"
    )


def _quoted(text: str) -> str:
    """As Lua and Emacs Lisp take it."""
    return json.dumps(text, ensure_ascii=False)


def _vim(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


SETTINGS: dict[str, Callable[[Sequence[str], str, str | None], str]] = {"emacs": emacs, "neovim": neovim, "vim": vim}
"""By editor: how tilespec is started, the folder of the files for editors, the firm's stock folder."""
