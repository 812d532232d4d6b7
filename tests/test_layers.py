"""What a part of tilespec may not do: reach back to a later stage, touch the outside world, or load what only a print needs."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "tilespec"

# Each sees only those before it (and itself).
ORDER = (
    "source", "resources", "quantity", "diagnostics", "outcome", "vocabulary", "syntax", "workspace", "practice", "formula",
    "job", "setout", "takeoff", "sequence", "programme", "checks", "compare", "document", "pipeline", "editor", "cli",
)
# The catalogue lists the checks (it never runs them), so that one register holds all codes.
BACKWARDS = {("diagnostics.catalogue", "checks")}

# Where the disk, the clock and the environment may be touched.
DOORS = ("resources", "workspace.host", "document.pdf", "practice.lookup", "cli")

# Where a library may be used at all, and where only inside functions.
HOMES = {
    "lark": ("syntax",),
    "click": ("cli",),
    "jinja2": ("document",),
    "markupsafe": ("document",),
    "markdown_it": ("document",),
    "mdit_py_plugins": ("document",),
    "weasyprint": ("document",),
    "shapely": ("takeoff", "setout", "document"),
    "highspy": ("setout",),
    "numpy": ("setout",),
    "pygls": ("editor.server",),
    "pygments": ("editor.pygments_lexer",),
    "lsprotocol": ("editor.server",),
    "watchfiles": ("cli.watch",),
}
# The language server is loaded only where it is started, the lexer only by Pygments.
LAZY = frozenset(HOMES) - {"lark", "click", "pygls", "lsprotocol", "pygments"}
# Nothing of this kind is for a compiler of texts.
NEVER = frozenset({"socket", "urllib", "http", "ssl", "pickle", "marshal", "ctypes", "multiprocessing", "subprocess", "requests"})
NEVER_BUT = {
    "ctypes": ("cli.system", "document.pdf"), "subprocess": ("cli", "document.pdf"), "multiprocessing": ("document.pdf",),
    "urllib": ("document.pdf",),
    "http": ("cli.preview",),   # serves the preview, on this machine only
}

MODULES = sorted(PACKAGE.rglob("*.py"))


def dotted(path: Path) -> str:
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def within(module: str, places: tuple[str, ...]) -> bool:
    return any(module == place or module.startswith(place + ".") for place in places)


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imports(node: ast.AST) -> Iterator[str]:
    for child in ast.walk(node):
        if isinstance(child, ast.Import):
            yield from (alias.name for alias in child.names)
        elif isinstance(child, ast.ImportFrom):
            assert not child.level, "imports name the whole way"
            # `from tilespec import pipeline` names a module too.
            yield from ([f"tilespec.{a.name}" for a in child.names] if child.module == "tilespec" else [str(child.module)])


def at_load(node: ast.AST) -> Iterator[str]:
    """Imports that happen when the module is loaded: not in functions, not for the type checker only."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            continue
        if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test):
            continue
        if isinstance(child, ast.Import | ast.ImportFrom):
            yield from imports(child)
        else:
            yield from at_load(child)


def stage(module: str) -> str:
    return module.split(".")[0]


def test_every_stage_has_its_place() -> None:
    found = {stage(dotted(p)) for p in MODULES} - {"", "__main__"}
    assert found <= set(ORDER), f"no place in the order for {sorted(found - set(ORDER))}"


@pytest.mark.parametrize("path", MODULES, ids=dotted)
def test_imports_point_back_up_the_order(path: Path) -> None:
    module = dotted(path)
    if module in ("", "__main__"):
        return
    for name in imports(tree(path)):
        if not name.startswith("tilespec.") or name == "tilespec.__version__":
            continue
        asked = name.removeprefix("tilespec.")
        if (module, stage(asked)) in BACKWARDS:
            continue
        assert ORDER.index(stage(asked)) <= ORDER.index(stage(module)), f"{module} must not know {asked}"


@pytest.mark.parametrize("path", MODULES, ids=dotted)
def test_libraries_stay_where_they_belong(path: Path) -> None:
    module, parsed = dotted(path), tree(path)
    for name in imports(parsed):
        top = name.split(".")[0]
        if top in HOMES:
            assert within(module, HOMES[top]), f"{module} must not use {top}"
        if top in NEVER:
            assert within(module, NEVER_BUT.get(top, ())), f"{module} must not use {top}"
    for name in at_load(parsed):
        assert name.split(".")[0] not in LAZY, f"{module} must load {name} only where it is used"


CALLS = frozenset({"open", "input", "exec", "eval", "__import__"})
ATTRIBUTES = frozenset({"read_text", "read_bytes", "write_text", "write_bytes", "now", "utcnow", "today"})
OUTSIDE = frozenset({"os", "time", "io", "shutil", "tempfile", "locale", "random"})
PLAIN = frozenset({"path", "sep", "fspath", "BytesIO", "StringIO"})
ON_DISK = frozenset({"exists", "isfile", "isdir", "realpath", "abspath", "getmtime", "getsize", "islink", "expanduser"})


def touches(parsed: ast.Module) -> Iterator[str]:
    """What a module does with disk, clock or environment."""
    for node in ast.walk(parsed):
        match node:
            case ast.ImportFrom(module=module, names=names) if module in OUTSIDE:
                yield from (alias.name for alias in names if alias.name not in PLAIN)
            case ast.Call(func=ast.Name(id=name)) if name in CALLS:
                yield name
            case ast.Attribute(value=ast.Attribute(attr="path"), attr=name) if name in ON_DISK:
                yield f"path.{name}"
            case ast.Attribute(value=ast.Name(id=module), attr=name) if module in OUTSIDE and name not in PLAIN:
                yield f"{module}.{name}"
            case ast.Attribute(attr=name) if name in ATTRIBUTES:
                yield name


@pytest.mark.parametrize("path", [p for p in MODULES if not within(dotted(p), DOORS)], ids=dotted)
def test_only_the_doors_touch_disk_clock_and_environment(path: Path) -> None:
    assert list(touches(tree(path))) == []


def test_the_ban_sees_what_it_should() -> None:
    for code in (
        "open('x')", "p.read_text()", "datetime.now()", "date.today()", "os.getcwd()", "os.environ['X']", "time.time()",
        "os.path.exists('x')", "from os import environ", "from time import sleep",
    ):
        assert list(touches(ast.parse(code))), code
    harmless = "import os\nos.path.join('a', 'b')\nfrom datetime import date, time\ntime(7, 30)\nx.clock.hour\nmine.open()"
    assert not list(touches(ast.parse(harmless)))


@pytest.mark.parametrize("path", MODULES, ids=dotted)
def test_names_and_types_of_house_style(path: Path) -> None:
    assert path.stem not in ("utils", "util", "helpers", "helper", "common", "misc", "manager", "handler")
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.ImportFrom) and node.module == "typing":
            assert "Any" not in [alias.name for alias in node.names], "say what it is"


def test_the_top_level_is_fixed() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "tilespec", "grammar", "templates", "tests", "examples"}
    found = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")} - {"build", "dist", "__pycache__"}
    assert found <= allowed, f"not at the top level: {sorted(found - allowed)}"
