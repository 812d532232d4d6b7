"""The package as others get it: a wheel built from the checkout, installed elsewhere, used from another folder."""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
EXAMPLE = ROOT / "examples" / "one-line.tilespec"

pytestmark = pytest.mark.slow


def run(*command: str | Path, cwd: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    # Nothing of this checkout may be found by accident.
    env = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")} | environment
    done = subprocess.run([str(c) for c in command], cwd=cwd, env=env, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr
    return done


def build(source: Path, target: Path, kind: str) -> Path:
    """Built with hatchling as installed here: no network."""
    run(sys.executable, "-m", "hatchling", "build", "-t", kind, "-d", target, cwd=source)
    (built,) = target.glob("*.whl" if kind == "wheel" else "*.tar.gz")
    return built


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ROOT, tmp_path_factory.mktemp("wheel"), "wheel")


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The programs' folder of a fresh environment, below a path with blanks."""
    place = tmp_path_factory.mktemp("fresh") / "a place with blanks"
    venv.create(place, with_pip=True)
    python = place / "bin" / "python"
    run(python, "-m", "pip", "install", "--quiet", "--no-index", "--no-deps", wheel, cwd=place)
    # The libraries as they are installed here; a path file does not bring this checkout along.
    inside = Path(run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=place).stdout.strip())
    libraries = dict.fromkeys(p for p in sys.path if p.endswith("site-packages"))
    (inside / "libraries.pth").write_text("\n".join(libraries) + "\n", encoding="utf-8")
    return place / "bin"


def data_files() -> set[str]:
    """What the wheel must hold, as git has it, with the place in the wheel."""
    listed = run("git", "ls-files", "tilespec", "grammar", "templates", cwd=ROOT).stdout.splitlines()
    return {name if name.startswith("tilespec/") else f"tilespec/{name}" for name in listed}


def test_wheel_holds_the_code_the_language_and_the_wording(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert data_files() <= names
    assert {"tilespec/grammar/tilespec.lark", "tilespec/templates/start.tilespec", "tilespec/py.typed"} <= names
    assert not [n for n in names if n.startswith(("tests/", "examples/", "grammar/", "templates/")) or n.endswith(".pyc")]


def test_sdist_makes_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    sdist = build(ROOT, tmp_path / "sdist", "sdist")
    with tarfile.open(sdist) as archive:
        archive.extractall(tmp_path, filter="data")
    (source,) = tmp_path.glob("tilespec-*")
    again = build(source, tmp_path / "again", "wheel")
    with zipfile.ZipFile(wheel) as one, zipfile.ZipFile(again) as two:
        assert {n: one.read(n) for n in one.namelist()} == {n: two.read(n) for n in two.namelist()}


def test_installed_program_works_from_another_folder(installed: Path, tmp_path: Path) -> None:
    where = run(installed / "python", "-c", "import tilespec; print(tilespec.__file__)", cwd=tmp_path).stdout
    assert str(installed.parent) in where
    run(installed / "tilespec", "start", "mine.tilespec", cwd=tmp_path)
    run(installed / "tilespec", "check", "mine.tilespec", EXAMPLE, cwd=tmp_path)
    run(installed / "tilespec", "print", EXAMPLE, "--to", "html", "-o", "job.html", cwd=tmp_path)
    assert "<html" in (tmp_path / "job.html").read_text(encoding="utf-8")


def test_pygments_finds_the_installed_lexer(installed: Path, tmp_path: Path) -> None:
    shown = run(installed / "python", "-m", "pygments", "-f", "html", EXAMPLE, cwd=tmp_path).stdout
    assert '<span class="kd">floor</span>' in shown and 'class="err"' not in shown


@pytest.mark.pdf
def test_installed_program_makes_a_pdf(installed: Path, tmp_path: Path) -> None:
    run(installed / "tilespec", "print", EXAMPLE, "-o", "job.pdf", cwd=tmp_path)
    assert (tmp_path / "job.pdf").read_bytes().startswith(b"%PDF-")


def test_zipped_package_works(wheel: Path, tmp_path: Path) -> None:
    command = (sys.executable, "-m", "tilespec")
    run(*command, "check", EXAMPLE, cwd=tmp_path, PYTHONPATH=str(wheel))
    run(*command, "print", EXAMPLE, "-o", "job.html", cwd=tmp_path, PYTHONPATH=str(wheel))
    assert "<html" in (tmp_path / "job.html").read_text(encoding="utf-8")


def test_an_incomplete_installation_says_so(wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as whole, zipfile.ZipFile(tmp_path / "part.zip", "w") as part:
        for name in whole.namelist():
            if not name.startswith("tilespec/grammar/"):
                part.writestr(name, whole.read(name))
    env = os.environ | {"PYTHONPATH": str(tmp_path / "part.zip")}
    command = [sys.executable, "-m", "tilespec", "check", str(EXAMPLE)]
    done = subprocess.run(command, cwd=tmp_path, env=env, capture_output=True, text=True, timeout=60)
    assert done.returncode == 3
    assert done.stderr == "tilespec: this installation of tilespec lacks its folder 'grammar'; install it again\n"
