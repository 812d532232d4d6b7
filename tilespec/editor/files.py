"""The highlighting files of `grammar/editors/`, made from the language's own words.

    python -m tilespec.editor.files          says their names
    python -m tilespec.editor.files NAME     prints one

A test fails while a file there is not what is made here.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable, Iterable

from tilespec.editor.highlight import CLOCKS, DATE, FRACTIONS, KINDS, movement, patterns, words
from tilespec.syntax.words import STATEMENTS, WITH_ZONE

# Names that colour themes of editors know, by kind.
SCOPES = {
    "comment": "comment.line.number-sign",
    "text": "string.quoted.double",
    "date": "constant.other.date",
    "number": "constant.numeric",
    "unit": "keyword.other.unit",
    "times": "keyword.operator.times",
    "mark": "punctuation.separator",
    "statement": "keyword.control.statement",
    "name": "entity.name.type",
    "attribute": "keyword.other.attribute",
    "joining": "keyword.operator.word",
    "describing": "support.constant",
    "word": "variable.other",
}
# The same for Vim's groups.
GROUPS = {
    "comment": "Comment", "text": "String", "date": "Constant", "number": "Number", "unit": "Type", "times": "Operator",
    "mark": "Delimiter", "statement": "Statement", "name": "Identifier", "attribute": "Keyword", "joining": "Operator",
    "describing": "Constant", "word": "Normal",
}


def textmate() -> str:
    """A TextMate grammar, which the common editors read."""
    listed: list[dict[str, object]] = []
    for pattern in patterns():
        names = [f"{SCOPES[kind]}.tilespec" if kind else "" for kind in pattern.kinds]
        if len(names) == 1:
            listed.append({"match": pattern.regex, "name": names[0]})
        else:
            captures = {str(n): {"name": name} for n, name in enumerate(names, 1) if name}
            listed.append({"match": pattern.regex, "captures": captures})
    grammar = {
        "information_for_contributors": "Made by `python -m tilespec.editor.files`; change the language, not this file.",
        "name": "tilespec", "scopeName": "source.tilespec", "fileTypes": ["tilespec"], "patterns": listed,
    }
    return json.dumps(grammar, indent=2, ensure_ascii=False) + "\n"


# ---------------------------------------------------------------- Vim, whose patterns are a language of their own

_LETTER = r"[[:alpha:]\u00aa-\u02af\u0370-\u1fff]"
_INNER = r"[[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]"
_VIM_END = rf"\%({_INNER}\)\@!"
_VIM_NUMBER = rf"[+-]\?\%(\d\+\%(\.\d\+\)\?\%( \?/ \?\d\+\)\?[{FRACTIONS}]\?\|[{FRACTIONS}]\)"
MADE = '" Made by `python -m tilespec.editor.files`; change the language, not this file.\n'


def _vim(text: str) -> str:
    """A text taken literally between the slashes of a pattern."""
    return re.sub(r"([\\/.*$^~\[\]])", r"\\\1", text)


def _any(listed: Iterable[str]) -> str:
    return r"\%(" + r"\|".join(map(_vim, listed)) + r"\)"


def _match(kind: str, regex: str, more: str = "") -> str:
    return f"syntax match tilespec{kind.title()} /{regex}/{more}\n"


def vim_syntax() -> str:
    """Vim takes the pattern that is named last where several begin at one place: the plainest stands first."""
    w = words()
    only = [s for s in STATEMENTS if s not in WITH_ZONE]
    unit = _any(w.units) + r"\%([A-WYZa-wyz0-9²\/%]\|[xX]\%([ \t]*\d\)\@!\)\@!\%([ \t]\+corner\)\@!"
    lines = [
        MADE, 'if exists("b:current_syntax")\n  finish\nendif\n', "syntax case match\n",
        _match("word", rf"{_LETTER}{_INNER}*"),
        _match("describing", _any(w.describing) + _VIM_END),
        _match("joining", _any(w.joining) + _VIM_END),
        _match("attribute", _any(w.attributes) + _VIM_END),
        _match("times", rf"[xX×]\%([ \t]*[0-9{FRACTIONS}]\)\@="),
        _match("mark", "[;,]"),
        _match("unit", rf"[ \u00a0-]\?{unit}", " contained"),
        _match("unit", rf" \?\%(ft\|[′']\)\%([ -]\?[0-9{FRACTIONS}]\)\@=", " contained"),
        _match("number", _VIM_NUMBER.replace("/", r"\/"), " nextgroup=tilespecUnit"),
        _match("number", r"1 \?: \?\d\+\%(\.\d\+\)\?\%([0-9:]\)\@!"),
        _match("word", _python(movement())),
        _match("date", _python(CLOCKS)),
        _match("date", _python(DATE)),
        _match("name", rf"\%(on[ \t]\)\@!{_LETTER}{_INNER}*", " contained"),
        _match("statement", rf"\%(; \)\@<={_any(only)}{_VIM_END}"),
        _match("statement", rf"^{_any(w.statements)}{_VIM_END}"),
        _match("statement", rf"^{_any(w.naming)}{_VIM_END}", " nextgroup=tilespecName skipwhite"),
        _match("text", r'\d\@1<!"[^"]*"'),
        _match("comment", "#.*"),
    ]
    lines += [f"highlight default link tilespec{kind.title()} {GROUPS[kind]}\n" for kind in KINDS if kind != "word"]
    return "".join((*lines, 'let b:current_syntax = "tilespec"\n'))


def _python(regex: str) -> str:
    """A pattern of counted signs, choices and what must not follow, in Vim's spelling."""
    regex = re.sub(r"\{(\d+(?:,\d+)?)\}", r"\\{\1}", regex)
    regex = re.sub(r"\(\?!([^()]*)\)", r"\\%(\1\\)\\@!", regex)
    regex = re.sub(r"\(\?:([^()]*)\)", lambda m: rf"\%({m[1].replace('|', chr(92) + '|')}\)", regex)
    return regex.replace(r"[\w-]", _INNER)


def vim_plugin() -> str:
    """Settings for a spec: comments, tidying with `gq`, checking with `:make`."""
    return MADE + (
        'if exists("b:did_ftplugin")\n  finish\nendif\nlet b:did_ftplugin = 1\n'
        "setlocal commentstring=#\\ %s comments=:# expandtab shiftwidth=2 softtabstop=2\n"
        "let s:program = get(g:, 'tilespec_program', 'tilespec')\n"
        # What tidy says on standard error would be put into the text.
        "let &l:formatprg = s:program . ' tidy - ' . (has('win32') ? '2>NUL' : '2>/dev/null')\n"
        "let &l:makeprg = s:program . ' check --short %:S'\n"
        "setlocal errorformat=%f:%l:%c:\\ %t%*[a-z]%m\n"
        'let b:undo_ftplugin = "setlocal commentstring< comments< expandtab< shiftwidth< softtabstop<"\n'
        '  \\ . " formatprg< makeprg< errorformat<"\n'
    )


def vim_detect() -> str:
    return MADE + "autocmd BufNewFile,BufRead *.tilespec setfiletype tilespec\n"


# Statements that more is said of on lines of their own, as a rule.
_WITH_LINES = ("job", "floor", "wall", "boxing")


def vim_indent() -> str:
    """Two blanks below a statement that more is said of; back to the margin below an empty line, and where a statement starts."""
    only = [s for s in STATEMENTS if s not in WITH_ZONE]
    keys = "".join(f"0={word}\\ ," for word in only)
    return MADE + (
        'if exists("b:did_indent")\n  finish\nendif\nlet b:did_indent = 1\n'
        f"setlocal autoindent indentexpr=TilespecIndent() indentkeys={keys}o,O,!^F\n"
        'let b:undo_indent = "setlocal autoindent< indentexpr< indentkeys<"\n'
        'if exists("*TilespecIndent")\n  finish\nendif\n'
        "function TilespecIndent()\n"
        "  let above = getline(v:lnum - 1)\n"
        rf"  if getline(v:lnum) =~# '^\s*{_any(only)}\s' || above =~# '^\s*$'" "\n"
        "    return 0\n"
        r"  elseif above =~# '^\s'" "\n"
        "    return indent(v:lnum - 1)\n"
        "  endif\n"
        rf"  return above =~# '^{_any(_WITH_LINES)}\>' ? shiftwidth() : 0" "\n"
        "endfunction\n"
    )


# ---------------------------------------------------------------- Emacs

# What Emacs calls these kinds.
_FACES = {
    "comment": "comment", "text": "string", "number": "constant", "statement": "keyword", "attribute": "builtin",
    "describing": "type",
}


def _lisp(listed: Iterable[str]) -> str:
    return "(regexp-opt '(" + " ".join(json.dumps(w, ensure_ascii=False) for w in listed) + ") 'symbols)"


def emacs() -> str:
    """A mode for specs: comments, words coloured, and the language server for who uses eglot."""
    w = words()

    def face(kind: str) -> str:
        return f"font-lock-{_FACES[kind]}-face"

    return f""";;; tilespec-mode.el --- job specs of tilespec -*- lexical-binding: t; -*-
;; Made by `python -m tilespec.editor.files`; change the language, not this file.

(defvar tilespec-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\\n ">" table)
    (modify-syntax-entry ?- "_" table)
    (modify-syntax-entry ?' "_" table)
    table))

(defvar tilespec-font-lock-keywords
  (list
   (cons (concat "^" {_lisp(w.statements)}) '{face("statement")})
   (cons {_lisp(w.attributes)} '{face("attribute")})
   (cons {_lisp(w.describing)} '{face("describing")})
   (cons "[+-]?\\\\b[0-9]+\\\\(?:\\\\.[0-9]+\\\\)?\\\\(?:/[0-9]+\\\\)?" '{face("number")})))

;;;###autoload
(define-derived-mode tilespec-mode prog-mode "tilespec"
  "Job specs of tilespec."
  (setq-local comment-start "# " comment-start-skip "#+[ \\t]*" indent-tabs-mode nil tab-width 2
              font-lock-defaults '(tilespec-font-lock-keywords)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\\\.tilespec\\\\'" . tilespec-mode))

(defcustom tilespec-command '("tilespec" "editor")
  "What is started to speak with; put \\"--library\\" \\"FOLDER\\" behind it for the firm's stock."
  :type '(repeat string) :group 'languages)

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs (cons 'tilespec-mode (lambda (&rest _) tilespec-command))))

(provide 'tilespec-mode)
;;; tilespec-mode.el ends here
"""


FILES: dict[str, Callable[[], str]] = {
    "emacs/tilespec-mode.el": emacs,
    "tilespec.tmLanguage.json": textmate,
    "vim/ftdetect/tilespec.vim": vim_detect,
    "vim/ftplugin/tilespec.vim": vim_plugin,
    "vim/indent/tilespec.vim": vim_indent,
    "vim/syntax/tilespec.vim": vim_syntax,
}


def main(arguments: list[str]) -> None:
    """Print the file that is named, or the names."""
    sys.stdout.write("".join(FILES[name]() for name in arguments) or "".join(f"{name}\n" for name in FILES))


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    main(sys.argv[1:])
