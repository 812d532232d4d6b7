"""`tilespec watch`: the page, who gets it, and how it follows the spec. A browser is driven where one is installed."""

from __future__ import annotations

import builtins
import http.client
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from urllib.parse import urlsplit

import pytest

from tilespec import pipeline
from tilespec.cli import watch
from tilespec.cli.door import run
from tilespec.cli.preview import Preview, Shown
from tilespec.cli.status import Status

ROOT = Path(__file__).resolve().parents[2]
BATH = 'tile t 300x300x9 ceramic\nroom "Bath" height 2.4\nfloor 2.4 x 1.8\n  base concrete\n  tile t; joint 3\n'
PAGE = (
    '<!doctype html>\n<html lang="en">\n<head>\n<title>x</title>\n<style>\n</style>\n</head>\n'
    "<body>\n<p>floor</p>\n</body>\n</html>\n"
)
PATIENCE = 120.0     # a loaded machine is no fault of the code


def until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE
    while not true():
        assert time.monotonic() < end, "it did not happen"
        time.sleep(0.1)


def asked(address: str, name: str = "", method: str = "GET", host: str | None = None) -> tuple[int, dict[str, str], str]:
    at = urlsplit(address)
    link = http.client.HTTPConnection(at.hostname or "", at.port, timeout=20)
    try:
        link.request(method, at.path + name, headers={"Host": host} if host else {})
        answer = link.getresponse()
        return answer.status, dict(answer.getheaders()), answer.read().decode("utf-8")
    finally:
        link.close()


@pytest.fixture
def preview() -> Iterator[Preview]:
    with Preview() as p:
        yield p


# ---------------------------------------------------------------- the page


def test_the_print_with_what_there_is_to_say(preview: Preview) -> None:
    status, head, first = asked(preview.address)
    assert status == 200 and "floor" not in first
    preview.show(Shown(PAGE, "1 warning", "warning[T9]: <b> & co", False))
    status, head, page = asked(preview.address)
    assert status == 200 and "<p>floor</p>" in page and "<strong>1 warning</strong>" in page
    assert "warning[T9]: &lt;b&gt; &amp; co" in page and 'class="sound"' in page
    assert head["Content-Type"] == "text/html; charset=utf-8" and head["Cache-Control"] == "no-store"
    # Whatever the page holds, it cannot fetch from elsewhere or send anything there.
    policy = head["Content-Security-Policy"]
    assert "default-src 'none'" in policy and "connect-src 'self'" in policy and "form-action 'none'" in policy
    for name, kind in (("preview.js", "text/javascript"), ("preview.css", "text/css")):
        status, head, text = asked(preview.address, name)
        assert status == 200 and head["Content-Type"].startswith(kind) and "http" not in text
    assert "<details>" in page, "folded away, under a strip that stays in sight"
    preview.show(Shown("", "1 error: nothing was printed", "error", True))
    page = asked(preview.address)[2]
    assert 'class="faulty"' in page and "<details open>" in page


def test_an_error_is_read_without_opening_the_messages(preview: Preview) -> None:
    lines = "job.tilespec:1:1: warning[T1]: a\njob.tilespec:2:1: error[T2]: <b>\njob.tilespec:3:1: error[T3]: c\n"
    preview.show(Shown(PAGE, "2 errors, 1 warning", "drawn", True, lines))
    page = asked(preview.address)[2]
    assert "<details><summary><strong>2 errors, 1 warning</strong>" in page
    assert '<span id="preview-first">job.tilespec:2:1: error[T2]: &lt;b&gt;</span></summary>' in page
    # A print on paper has none of it.
    assert "@media print { #preview-said { display: none } }" in asked(preview.address, "preview.css")[2]


def test_who_does_not_know_the_word_gets_nothing(preview: Preview) -> None:
    preview.show(Shown(PAGE, "no faults", "", False))
    at = urlsplit(preview.address)
    base = f"http://127.0.0.1:{at.port}"
    for address in (f"{base}/", f"{base}/x/", f"{base}{at.path[:-2]}/", f"{base}//", f"{base}/events"):
        status, _, text = asked(address)
        assert status == 404 and "floor" not in text, address
    for name in ("x", "../../etc/passwd", "events/", "preview.js/x", "?x"):
        assert asked(preview.address, name)[0] == 404, name
    # Under another name: a page from elsewhere has had its own name lead here.
    assert asked(preview.address, host=f"elsewhere.example:{at.port}")[0] == 404
    assert asked(preview.address, host=f"localhost:{at.port}")[0] == 200
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert asked(preview.address, method=method)[0] == 501


def test_each_run_has_a_word_and_a_port_of_its_own() -> None:
    with Preview() as a, Preview() as b:
        assert a.address != b.address and a.address.startswith("http://127.0.0.1:")
        assert len(urlsplit(a.address).path) > 20
        with pytest.raises(OSError):
            Preview(urlsplit(a.address).port or 0)


def test_news_come_as_they_happen(preview: Preview) -> None:
    at = urlsplit(preview.address)
    link = http.client.HTTPConnection("127.0.0.1", at.port, timeout=20)
    link.request("GET", at.path + "events")
    answer = link.getresponse()
    assert answer.getheader("Content-Type") == "text/event-stream"

    def event() -> list[str]:
        lines = []
        while (line := answer.readline().decode().rstrip("\n")):
            lines.append(line)
        return lines

    (_, data) = event()
    run_of, _, number = data.removeprefix("data: ").partition("-")
    assert number == "0"
    preview.busy()
    assert event()[0] == "event: busy"
    preview.show(Shown(PAGE, "no faults", "", False))
    assert event() == ["event: version", f"data: {run_of}-1"]
    assert f'data-version="{run_of}-1"' in asked(preview.address)[2]
    link.close()


def test_it_ends_while_somebody_listens() -> None:
    with Preview() as p:
        at = urlsplit(p.address)
        link = http.client.HTTPConnection("127.0.0.1", at.port, timeout=20)
        link.request("GET", at.path + "events")
        answer = link.getresponse()
        answer.readline()
    assert not answer.read().strip().startswith(b"event: busy")
    with pytest.raises(OSError):
        asked(p.address)


# ---------------------------------------------------------------- what it shows


@pytest.fixture
def spec(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "job.tilespec"
    path.write_text(BATH, encoding="utf-8")
    return path


def builder(**more: str) -> watch.Builder:
    return watch.Builder("job.tilespec", more.get("library"), more.get("wording"), pipeline.Order("html", ("title",)))


def test_the_last_print_without_errors_stays(spec: Path) -> None:
    b = builder()
    first = b.build()
    assert not first.faulty and "Bath" in first.page
    spec.write_text(BATH.replace("2.4 x 1.8", "2,4 x 1.8"), encoding="utf-8")
    second = b.build()
    assert second.faulty and second.page == first.page and second.headline == "1 error: below is the last print without errors"
    assert "decimal-comma" in second.messages
    spec.unlink()
    assert b.build().headline == "job.tilespec does not exist: below is the last print without errors"
    assert b.build().page == first.page
    spec.write_text("tile t 300x300x9 ceramic\n", encoding="utf-8")
    assert "stock only" in b.build().headline
    spec.write_text(BATH, encoding="utf-8")
    assert not b.build().faulty


def test_stock_and_wording_are_followed_too(spec: Path, tmp_path: Path) -> None:
    (tmp_path / "own" / "parts").mkdir(parents=True)
    b = builder(wording="own")
    before = watch.stamps(b.files())
    (tmp_path / "stock.tilespec").write_text("# new\n", encoding="utf-8")
    with_stock = watch.stamps(b.files())
    assert with_stock != before
    (tmp_path / "own" / "parts" / "01-title.md.j2").write_text("# x\n", encoding="utf-8")
    assert watch.stamps(b.files()) != with_stock
    (tmp_path / "notes.txt").write_text("x", encoding="utf-8")
    assert set(watch.stamps(b.files())) == {
        str(tmp_path / name) for name in ("job.tilespec", "stock.tilespec", "own/parts/01-title.md.j2")
    }


def test_a_stock_file_that_is_still_missing_is_waited_for(spec: Path) -> None:
    folder = spec.parent / "stock"
    folder.mkdir()
    spec.write_text('use "stock/tiles.tilespec"\n' + BATH.partition("\n")[2], encoding="utf-8")
    b = builder()
    assert b.build().faulty
    before = watch.stamps(b.files())
    (folder / "tiles.tilespec").write_text(BATH.partition("\n")[0] + "\n", encoding="utf-8")
    assert "stock" in b.folders() and watch.stamps(b.files()) != before
    assert not b.build().faulty


def test_without_watchfiles_it_looks_by_itself(spec: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def without(name: str, *rest: object) -> ModuleType:
        if name == "watchfiles":
            raise ImportError(name)
        return real(name, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(builtins, "__import__", without)
    monkeypatch.setattr(watch, "POLL", 0.01)
    knocks = watch._knocks((str(spec.parent),))
    assert [next(knocks) for _ in range(3)] == [None] * 3


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (["none.tilespec"], Status.ENVIRONMENT, "does not exist"),
        (["job.tilespec", "--part", "x"], Status.USAGE, "no part has the key"),
        (["job.tilespec", "--port", "0"], Status.USAGE, "port"),
        ([], Status.USAGE, "SPEC"),
    ],
)
def test_what_is_wrong_from_the_start(
    spec: Path, capsys: pytest.CaptureFixture[str], words: list[str], status: Status, says: str,
) -> None:
    assert run(["watch", *words]) is status
    assert says in capsys.readouterr().err


# ---------------------------------------------------------------- the program


# The shells of some machines start programs deaf to Ctrl-C.
HEARING = """
import signal
from tilespec.cli import main
signal.signal(signal.SIGINT, signal.default_int_handler)
main()
"""


@pytest.fixture
def program(spec: Path) -> Iterator[tuple[subprocess.Popen[str], Path]]:
    """The program on a job; its messages go into a file."""
    said = spec.parent / "said.txt"
    with said.open("w") as file:
        running = subprocess.Popen(
            [sys.executable, "-c", HEARING, "watch", "job.tilespec"], cwd=spec.parent, stdout=subprocess.PIPE, stderr=file,
            text=True, env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        try:
            yield running, said
        finally:
            if running.poll() is None:
                running.kill()
            running.communicate()


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C is sent as a signal")
def test_it_follows_the_spec_and_ends_with_ctrl_c(program: tuple[subprocess.Popen[str], Path], spec: Path) -> None:
    running, said = program
    until(lambda: "no faults" in said.read_text())
    assert running.stdout is not None
    address = running.stdout.readline().rstrip("\n")
    assert address.startswith("http://127.0.0.1:") and address not in said.read_text()
    assert "Bath" in asked(address)[2]
    # As many editors save: a new file takes the name.
    other = spec.with_suffix(".new")
    other.write_text(BATH.replace("Bath", "Wash room"), encoding="utf-8")
    os.replace(other, spec)
    until(lambda: "Wash room" in asked(address)[2])
    spec.write_text(BATH.replace("2.4 x 1.8", "2,4 x 1.8"), encoding="utf-8")
    until(lambda: "1 error: below is the last print" in asked(address)[2])
    assert "Wash room" in asked(address)[2]
    faulty = "job.tilespec:3:7: error[T0301]: "
    until(lambda: "1 error" in said.read_text())
    # The same messages after another save are not said again.
    spec.write_text(BATH.replace("2.4 x 1.8", "2,4 x 1.8").replace("joint 3", "joint 4"), encoding="utf-8")
    until(lambda: said.read_text().count("1 error") == 2)
    assert said.read_text().count(faulty) == 1
    running.send_signal(signal.SIGINT)
    out, _ = running.communicate(timeout=PATIENCE)
    assert (running.returncode, out) == (0, "")
    assert said.read_text().endswith("preview ended\n") and "Traceback" not in said.read_text()


# ---------------------------------------------------------------- a browser


BROWSERS = ("chromium", "chromium-browser", "google-chrome")


# The browser takes its orders from 3 and answers into 4. Out of the way first: one of ours may have that number itself.
PIPES = """
import os, sys
a, b = (os.dup(int(n)) for n in sys.argv[1:3])
a, b = os.dup(a), os.dup(b)
os.dup2(a, 3), os.dup2(b, 4)
os.execvp(sys.argv[3], sys.argv[3:])
"""


class Browser:
    """A browser without a window, told what to do through two pipes."""

    def __init__(self, program: str, profile: Path) -> None:
        to_read, self.to = os.pipe()
        self.fro, to_write = os.pipe()

        self.process = subprocess.Popen(
            [sys.executable, "-c", PIPES, str(to_read), str(to_write), program, "--headless", "--no-sandbox", "--disable-gpu",
             f"--user-data-dir={profile}", "--window-size=900,700", "--no-first-run", "--disable-background-networking",
             "--remote-debugging-pipe", "about:blank"],
            pass_fds=(to_read, to_write), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )
        os.close(to_read), os.close(to_write)
        self.number, self.left, self.requests = 0, b"", [""]
        targets = self.send("Target.getTargets")["targetInfos"]
        page = next(t["targetId"] for t in targets if t["type"] == "page")  # type: ignore[attr-defined,index]
        self.session = self.send("Target.attachToTarget", targetId=page, flatten=True)["sessionId"]
        self.send("Network.enable")
        self.send("Page.enable")

    def send(self, method: str, **parameters: object) -> dict[str, object]:
        self.number += 1
        session = {"sessionId": self.session} if hasattr(self, "session") else {}
        os.write(self.to, json.dumps({"id": self.number, "method": method, "params": parameters, **session}).encode() + b"\0")
        while True:
            answer = self.message()
            if answer.get("method") == "Network.requestWillBeSent":
                self.requests.append(answer["params"]["request"]["url"])  # type: ignore[index]
            if answer.get("id") == self.number:
                assert "error" not in answer, answer
                return answer["result"]  # type: ignore[return-value]

    def message(self) -> dict[str, object]:
        while b"\0" not in self.left:
            more = os.read(self.fro, 1 << 16)
            assert more, "the browser has ended"
            self.left += more
        one, _, self.left = self.left.partition(b"\0")
        found = json.loads(one)
        assert isinstance(found, dict)
        return found

    def value(self, script: str) -> object:
        found = self.send("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)["result"]
        assert isinstance(found, dict)
        return found.get("value")

    def end(self) -> None:
        os.close(self.to)
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        os.close(self.fro)


@pytest.fixture
def browser(tmp_path: Path) -> Iterator[Browser]:
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None or os.name != "posix":
        pytest.skip(f"no browser is installed ({', '.join(BROWSERS)})")
    b = Browser(found, tmp_path / "profile")
    try:
        yield b
    finally:
        b.end()


@pytest.mark.browser
@pytest.mark.slow
def test_in_a_browser_the_place_is_kept(spec: Path, browser: Browser, preview: Preview) -> None:
    b = watch.Builder("job.tilespec", None, None, pipeline.Order("html"))
    preview.show(b.build())
    browser.send("Page.navigate", url=preview.address)
    until(lambda: browser.value("document.querySelectorAll('#preview-print h2').length > 8") is True)
    # Drawings are there, and have been drawn.
    assert browser.value("[...document.images].length > 1 && [...document.images].every(i => i.naturalWidth > 0)") is True
    at = "document.getElementById('part-sequence').getBoundingClientRect().top"
    browser.value("document.getElementById('part-sequence').scrollIntoView(); window.scrollBy(0, -150)")
    before, top = browser.value(at), browser.value("scrollY")
    assert isinstance(before, int | float) and isinstance(top, int | float) and top > 500
    # Rooms more make the parts above longer.
    more = "".join(BATH.partition("\n")[2].replace("Bath", name) for name in ("Wash room", "Loft", "Fuchsia room"))
    spec.write_text(BATH + more, encoding="utf-8")
    preview.busy()
    until(lambda: browser.value("document.getElementById('preview-state').textContent") == "working it out …")
    preview.show(b.build())
    until(lambda: browser.value("document.body.textContent.includes('Fuchsia room')") is True)
    after, moved = browser.value(at), browser.value("scrollY")
    assert isinstance(after, int | float) and isinstance(moved, int | float)
    assert abs(after - before) <= 2 and moved > top
    # An error: its message stands above, and the print and the place stay.
    spec.write_text(BATH.replace("2.4 x 1.8", "2,4 x 1.8"), encoding="utf-8")
    preview.show(b.build())
    said = "document.querySelector('#preview-said.faulty pre')?.textContent"
    until(lambda: "decimal-comma" in str(browser.value(said)))
    # A strip that is in sight wherever one reads, and opens the messages; opened by hand they stay so.
    strip = "document.getElementById('preview-said').getBoundingClientRect()"
    assert browser.value(f"{strip}.top") == 0 and float(str(browser.value(f"{strip}.height"))) < 80
    opened = "document.querySelector('#preview-said details').open"
    before_opened = browser.value(at)
    browser.value("document.querySelector('#preview-said summary').click()")
    until(lambda: browser.value(opened) is True)
    assert browser.value(at) == before_opened
    preview.show(b.build())
    until(lambda: browser.value("shown === wanted && shown.endsWith('-4')") is True)
    assert browser.value(opened) is True
    assert browser.value("document.body.textContent.includes('Fuchsia room')") is True
    kept = browser.value(at)
    assert isinstance(kept, int | float) and abs(kept - after) <= 2
    # Nothing is fetched from anywhere but here.
    asked_for = [url for url in browser.requests if re.match(r"(http|ws|ftp)", url)]
    assert asked_for and all(url.startswith(preview.address) for url in asked_for)
