"""A spec is coloured and mended in Emacs, with the lines that `tilespec editor --set-up emacs` prints."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.editor.set_up import lines, surroundings

ROOT = Path(__file__).resolve().parent.parent.parent
MODE = ROOT / "grammar" / "editors" / "emacs" / "tilespec-mode.el"
SPEC = """# Measured on Tuesday
job "A room"
tile field 300x300x9 porcelain; box of 11
room "Bath" height 2.4
floor 2.4 x 1.8
  base concrete
  tile feild; joint 3
"""
# eglot asks the server only once somebody types: a program that types nothing starts it by hand.
STEPS = """
(setq eglot-sync-connect 60 eglot-connect-timeout 60)
(remove-hook 'tilespec-mode-hook #'eglot-ensure)
(find-file "job.tilespec")
(apply #'eglot (eglot--guess-contact))
(flymake-mode 1)
(let ((n 0))
  (while (and (< n 120) (null (flymake-diagnostics)))
    (flymake-start) (accept-process-output nil 0.5) (setq n (1+ n))))
(princ (format "found %s\n" (flymake-diagnostic-text (car (flymake-diagnostics)))))
(goto-char (flymake-diagnostic-beg (car (flymake-diagnostics))))
(let ((actions (append (eglot-code-actions (point) (point) nil nil) nil)))
  (princ (format "offered %s\n" (mapcar (lambda (a) (plist-get a :title)) actions)))
  (eglot--apply-workspace-edit (plist-get (car actions) :edit)))
(save-buffer)
"""


def emacs(folder: Path, *expressions: str) -> str:
    if shutil.which("emacs") is None:
        pytest.skip("emacs is not installed (apt-get install emacs-nox elpa-eglot)")
    (folder / "job.tilespec").write_text(SPEC, encoding="utf-8")
    (folder / "run.el").write_text("\n".join(expressions), encoding="utf-8")
    done = subprocess.run(
        ["emacs", "-q", "--batch", "-l", "run.el"], cwd=folder, capture_output=True, text=True, timeout=300, check=False,
        env=surroundings(folder),
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.mark.slow
def test_words_are_coloured(tmp_path: Path) -> None:
    told = emacs(
        tmp_path,
        f"(load {json.dumps(str(MODE))})",
        '(find-file "job.tilespec") (font-lock-ensure)',
        """(dolist (word '("Measured" "job" "A room" "field" "300" "porcelain" "height" "concrete" "feild"))
             (goto-char (point-min)) (search-forward word)
             (princ (format "%s %s\\n" word (get-text-property (match-beginning 0) 'face))))""",
    )
    assert told.splitlines() == [
        "Measured font-lock-comment-face", "job font-lock-keyword-face", "A room font-lock-string-face", "field nil",
        "300 font-lock-constant-face", "porcelain font-lock-type-face", "height font-lock-builtin-face",
        "concrete font-lock-type-face", "feild nil",
    ]


@pytest.mark.slow
def test_a_mistake_is_told_and_mended(tmp_path: Path) -> None:
    if "eglot" not in emacs(tmp_path, "(princ (locate-library \"eglot\"))"):
        pytest.skip("eglot is not installed (apt-get install elpa-eglot)")
    told = emacs(tmp_path, lines("emacs"), STEPS)
    assert "T0201" in told and "There is no tile `feild`." in told and "offered (write field (T0201))" in told
    assert (tmp_path / "job.tilespec").read_text(encoding="utf-8") == SPEC.replace("feild", "field")
