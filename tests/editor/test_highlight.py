"""The highlighting files: made from the grammar's own words, and each tried by what reads it."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest
from pygments.token import Error, Text

from tilespec.editor.files import FILES, GROUPS, SCOPES, main
from tilespec.editor.highlight import KINDS, grammar_words, patterns, words
from tilespec.editor.pygments_lexer import TOKENS, TilespecLexer
from tilespec.resources import data_text
from tilespec.syntax.table import build

ROOT = Path(__file__).parents[2]
EDITORS = ROOT / "grammar" / "editors"
EXAMPLES = {p.stem: p.read_text(encoding="utf-8") for p in (ROOT / "examples").glob("*.tilespec")}
REFERENCE = re.findall(r"^```tilespec[^\n]*\n(.*?)^```$", (ROOT / "grammar/LANGUAGE.md").read_text(encoding="utf-8"), re.M | re.S)
KIND_OF = {token: kind for kind, token in TOKENS.items()}


def kinds(text: str) -> list[tuple[int, str, str]]:
    """Place, words and kind of everything that is not blank."""
    found = TilespecLexer(ensurenl=False, stripnl=False).get_tokens_unprocessed(text)
    return [(at, words, KIND_OF[token]) for at, token, words in found if words.strip()]


# ---------------------------------------------------------------- the words

def test_the_words_are_the_grammars() -> None:
    spelled = {t.pattern.value for t in build(data_text("grammar/tilespec.lark")).terminals if t.pattern.type == "str"}
    assert grammar_words() == {word for word in spelled if word[0].isalpha()}
    w = words()
    assert grammar_words() <= {*w.statements, *w.attributes, *w.joining}
    assert {"tile", "wall", "room", "adhesive"} <= set(w.naming) <= set(w.statements)
    assert not {"floor", "conditions", "job", "shower"} & set(w.naming)


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_file_is_what_is_made(name: str) -> None:
    made = FILES[name]()
    assert (EDITORS / name).read_text(encoding="utf-8") == made, "make it again: DEVELOPERS.md says how"


def test_every_file_with_words_is_made_here(capsys: pytest.CaptureFixture[str]) -> None:
    assert {str(p.relative_to(EDITORS)) for p in EDITORS.rglob("*") if p.is_file()} == {*FILES, "vim/lua/tilespec.lua"}
    main([])
    assert capsys.readouterr().out.split() == list(FILES)
    main(["tilespec.tmLanguage.json"])
    assert json.loads(capsys.readouterr().out)["scopeName"] == "source.tilespec"


def test_every_kind_has_its_names() -> None:
    assert set(KINDS) == set(SCOPES) == set(GROUPS) == set(TOKENS) - {""}
    assert {kind for p in patterns() for kind in p.kinds} - {""} == set(KINDS)


# ---------------------------------------------------------------- Pygments

@pytest.mark.parametrize("text", [*EXAMPLES.values(), "".join(REFERENCE)], ids=[*EXAMPLES, "reference"])
def test_every_word_of_the_examples_is_something(text: str) -> None:
    found = list(TilespecLexer(ensurenl=False, stripnl=False).get_tokens(text))
    assert "".join(words for _, words in found) == text
    assert not [words for token, words in found if token in (Error, Text)]


def test_what_stands_where() -> None:
    text = (
        'tile wall-tile 600x300x9 porcelain; box of 6  # six "each"\n'
        "floor 2.4 x 1.8 heated; wall A\n"
        "  joint 3 mm; fall 1:60; date 2026-03-02; hours mon-fri 07:30-16:00\n"
        "  drain 10½\" from wall D, 7'3 in from left; sealant 25LM\n"
        'tile on left; room "A; b"\n'
    )
    assert [f"{kind}:{words}" for _, words, kind in kinds(text)] == [
        "statement:tile", "name:wall-tile", "number:600", "times:x", "number:300", "times:x", "number:9", "describing:porcelain",
        "mark:;", "attribute:box", "joining:of", "number:6", 'comment:# six "each"',
        "statement:floor", "number:2.4", "times:x", "number:1.8", "describing:heated", "mark:;", "statement:wall", "word:A",
        "attribute:joint", "number:3", "unit:mm", "mark:;", "attribute:fall", "number:1:60", "mark:;", "attribute:date",
        "date:2026-03-02", "mark:;", "attribute:hours", "word:mon-fri", "date:07:30-16:00",
        "attribute:drain", "number:10½", 'unit:"', "joining:from", "joining:wall", "word:D", "mark:,", "number:7", "unit:'",
        "number:3", "unit:in", "joining:from", "describing:left", "mark:;", "attribute:sealant", "word:25LM",
        "statement:tile", "attribute:on", "describing:left", "mark:;", "statement:room", 'text:"A; b"',
    ]


def test_a_text_that_is_not_closed_is_marked() -> None:
    assert Error in [token for token, _ in TilespecLexer().get_tokens('job "open\n')]


def test_pygments_finds_it_by_the_entry_point() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    module, _, name = project["entry-points"]["pygments.lexers"]["tilespec"].partition(":")
    assert getattr(import_module(module), name) is TilespecLexer
    assert TilespecLexer.aliases == ["tilespec"] and TilespecLexer.filenames == ["*.tilespec"]


def test_pygments_is_not_needed_to_run() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "import sys, tilespec.cli.check, tilespec.editor.files; print('pygments' in sys.modules)"],
        capture_output=True, text=True, cwd=ROOT, timeout=60, check=True,
    )
    assert done.stdout == "False\n"


# ---------------------------------------------------------------- TextMate

def scopes(text: str) -> Iterator[tuple[int, str, str]]:
    """What an editor does with the grammar: line by line, the leftmost match, of several the first pattern's."""
    listed = json.loads((EDITORS / "tilespec.tmLanguage.json").read_text(encoding="utf-8"))["patterns"]
    rules = [(re.compile(p["match"]), p) for p in listed]
    begins = 0
    for line in text.split("\n"):
        at = 0
        while at < len(line):
            found = [(m.start(), n, m) for n, (rule, _) in enumerate(rules) if (m := rule.search(line, at)) and m[0]]
            if not found:
                break
            _, n, m = min(found, key=lambda f: f[:2])
            for group in [0] if "name" in rules[n][1] else [int(g) for g in rules[n][1]["captures"]]:
                name = rules[n][1].get("name") or rules[n][1]["captures"][str(group)]["name"]
                yield begins + m.start(group), m[group], name
            at = m.end()
        begins += len(line) + 1


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_textmate_says_the_same_as_pygments(name: str) -> None:
    text = EXAMPLES[name]
    assert [(at, words, scope) for at, words, scope in scopes(text)] == [
        (at, words, f"{SCOPES[kind]}.tilespec") for at, words, kind in kinds(text)
    ]


def test_textmate_patterns_are_plain() -> None:
    """No name of a group, no look back of open length, nothing that Python has and others lack."""
    for pattern in json.loads((EDITORS / "tilespec.tmLanguage.json").read_text(encoding="utf-8"))["patterns"]:
        assert not re.search(r"\(\?P|\(\?\(|\\Z|\(\?<[=!][^)]*[*+]", pattern["match"])
        assert re.compile(pattern["match"]).groups == len(pattern.get("captures", ())) + ("captures" in pattern)


# ---------------------------------------------------------------- Vim

def _can_highlight(program: str) -> bool:
    if not shutil.which(program):
        return False
    said = subprocess.run([program, "--version"], capture_output=True, text=True, timeout=30).stdout
    return program == "nvim" or "+syntax" in said


def vim(program: str, folder: Path, spec: Path, *commands: str) -> None:
    """Opens the spec with our files and nothing of the user's, and runs the commands."""
    script = folder / "script.vim"
    script.write_text("\n".join((*commands, "qall!")) + "\n", encoding="utf-8")
    quiet = ["--headless"] if program == "nvim" else ["-e", "-s"]
    subprocess.run(
        [program, *quiet, "-u", "NONE", "-i", "NONE", "--cmd", f"set nocompatible encoding=utf-8 runtimepath^={EDITORS / 'vim'}",
         "-c", "filetype plugin on | syntax on", "-c", f"edit {spec}", "-S", str(script)],
        cwd=folder, capture_output=True, timeout=60,
    )


EVERY = """\
let found = []
for place in readfile("places")
  let [line, column] = split(place)
  call add(found, synIDattr(synID(line, column, 1), "name"))
endfor
call writefile(found, "found")"""


@pytest.mark.parametrize("program", ["vim", "nvim"])
@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_vim_says_the_same_as_pygments(program: str, name: str, tmp_path: Path) -> None:
    if not _can_highlight(program):
        pytest.skip(f"{program} with highlighting is not installed")
    text = EXAMPLES[name]
    (tmp_path / "job.tilespec").write_text(text, encoding="utf-8")
    wanted, places = [], []
    for at, found, kind in kinds(text):
        line = text.count("\n", 0, at)
        column = len(text[text.rfind("\n", 0, at) + 1 : at].encode("utf-8"))
        places.append(f"{line + 1} {column + 1}")
        wanted.append((line + 1, found, f"tilespec{kind.title()}"))
    (tmp_path / "places").write_text("\n".join(places) + "\n", encoding="utf-8")
    vim(program, tmp_path, tmp_path / "job.tilespec", EVERY)
    shown = (tmp_path / "found").read_text(encoding="utf-8").split("\n")[:-1]
    assert [(line, found, group) for (line, found, _), group in zip(wanted, shown, strict=True)] == wanted


@pytest.mark.parametrize("program", ["vim", "nvim"])
def test_vim_tidies_and_checks(program: str, tmp_path: Path) -> None:
    if not _can_highlight(program):
        pytest.skip(f"{program} with highlighting is not installed")
    tool = tmp_path / "tilespec"
    tool.write_text(f'#!/bin/sh\nPYTHONPATH="{ROOT}" exec "{sys.executable}" -m tilespec "$@"\n', encoding="utf-8")
    tool.chmod(0o755)
    spec = tmp_path / "job.tilespec"
    spec.write_text("floor 2.4x1.8;wall  A 2.4 x 2.4 shower zone\ntile 300 x 600 joint 90\n", encoding="utf-8")
    vim(
        program, tmp_path, spec, f'let $PATH = "{tmp_path}:" . $PATH', "set shellredir=>%s\\ 2>&1", "normal! gggqG", "write",
        "silent make!", "let found = []", "for one in getqflist()",
        '  call add(found, one.lnum . ":" . one.col . " " . one.type . one.text)', "endfor", 'call writefile(found, "told")',
        'call writefile([&filetype, &commentstring], "set")',
    )
    assert spec.read_text(encoding="utf-8") == "floor 2.4 x 1.8; wall A 2.4 x 2.4 shower zone\ntile 300x600 joint 90\n"
    assert (tmp_path / "set").read_text(encoding="utf-8") == "tilespec\n# %s\n"
    told = (tmp_path / "told").read_text(encoding="utf-8").splitlines()
    assert told == ["2:20 e[T0303]: 90 mm is more than a joint can be (at most 25 mm)."]
