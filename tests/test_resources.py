"""The data beside the code are found in this installation; other kinds of installation: test_packaging.py."""

from __future__ import annotations

import pytest

from tilespec.resources import Incomplete, data_bytes, data_dir, data_text


def test_found() -> None:
    assert data_text("grammar/tilespec.lark").startswith("//")
    assert data_bytes("templates/start.tilespec").startswith(b"#")
    assert data_dir("templates").is_dir()


@pytest.mark.parametrize("name", ["grammar/none.lark", "grammar/editors", "no-such-folder/x"])
def test_missing(name: str) -> None:
    with pytest.raises(Incomplete, match="install it again"):
        data_text(name)


@pytest.mark.parametrize("name", ["grammar", "grammar/../README.md", "grammar//x", "grammar/", "grammar/a\\b", "grammar/c:x"])
def test_names_stay_inside(name: str) -> None:
    with pytest.raises(ValueError, match="not the name"):
        data_text(name)
