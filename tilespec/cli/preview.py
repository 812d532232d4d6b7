"""A page that follows a spec, for a browser on this machine and for nobody else.

Only 127.0.0.1 is listened on, and only who knows the address, with the word in it that was made for this run, gets an answer:
another page that is open in the browser cannot read it. Nothing is fetched from anywhere; the page says so to the browser.
"""

from __future__ import annotations

import hmac
import secrets
import threading
from dataclasses import dataclass, field
from html import escape
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from types import TracebackType

from tilespec.diagnostics.model import Severity
from tilespec.resources import data_bytes

HOST = "127.0.0.1"
# A line that says nothing keeps the connection, and finds out when nobody is there any more.
PULSE = 10.0
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src data:; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)


@dataclass(frozen=True, slots=True)
class Shown:
    """What the page shows.

    page      a print as HTML, standing alone; "" where there has been none yet
    headline  one line on how it stands
    messages  what there is to say about the spec, drawn as for a terminal
    faulty    the spec has errors: the page, if any, is that of the last version without
    lines     the messages, each on one line
    """

    page: str
    headline: str
    messages: str
    faulty: bool
    lines: str = ""


@dataclass(slots=True)
class _State:
    """Shared by the browsers' threads; guarded by `news`."""

    news: threading.Condition = field(default_factory=threading.Condition)
    html: bytes = b""
    version: int = 0
    busy: bool = False
    closed: bool = False


class Preview:
    """Serves the page until it is left: `with Preview() as p: p.show(...)`. OSError where the port is taken."""

    def __init__(self, port: int = 0) -> None:
        self._state = _State()
        self._run = secrets.token_hex(4)    # a page left open by an earlier run must not think itself up to date
        self._word = secrets.token_urlsafe(18)
        # Until there is something to show.
        self._state.html = _page(Shown("", "tilespec", "", False), f"{self._run}-0").encode()
        self._server = _Server((HOST, port), self._word, self._state, self._run)
        self._thread = threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)

    @property
    def address(self) -> str:
        return f"http://{HOST}:{self._server.server_port}/{self._word}/"

    def __enter__(self) -> Preview:
        self._thread.start()
        return self

    def __exit__(self, _type: type[BaseException] | None, _fault: BaseException | None, _trace: TracebackType | None) -> None:
        with self._state.news:
            self._state.closed = True
            self._state.news.notify_all()
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()

    def busy(self) -> None:
        """Something is being worked out."""
        with self._state.news:
            self._state.busy = True
            self._state.news.notify_all()

    def show(self, shown: Shown) -> None:
        with self._state.news:
            self._state.version += 1
            self._state.html = _page(shown, f"{self._run}-{self._state.version}").encode("utf-8", "replace")
            self._state.busy = False
            self._state.news.notify_all()


_BARE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>tilespec</title>
<style></style>
</head>
<body>
</body>
</html>
"""
_LINKS = """<link rel="icon" href="data:,">
<link rel="stylesheet" href="preview.css">
<script src="preview.js" defer></script>
"""


def _page(shown: Shown, version: str) -> str:
    """The print under a strip with what there is to say, which stays in sight and opens the messages."""
    kind = "faulty" if shown.faulty else "sound"
    strip = f"<strong>{escape(shown.headline)}</strong>"
    # What is wrong is read without opening anything.
    first = next((line for line in shown.lines.splitlines() if f": {Severity.ERROR.value}[" in line), "") if shown.faulty else ""
    if first:
        strip += f' <span id="preview-first">{escape(first)}</span>'
    if shown.messages:
        # Where there is nothing else to be seen they stand open.
        opened = "" if shown.page else " open"
        strip = f"<details{opened}><summary>{strip}</summary><pre>{escape(shown.messages)}</pre></details>"
    else:
        strip = f"<p>{strip}</p>"
    said = f'<div id="preview-said" role="status" class="{kind}"><span id="preview-state"></span>{strip}</div>\n'
    head, _, rest = (shown.page or _BARE).partition("</head>\n<body>\n")
    body = rest.removesuffix("</body>\n</html>\n")
    head = head.replace("<html ", f'<html data-version="{version}" ', 1)
    return f'{head}{_LINKS}</head>\n<body>\n{said}<main id="preview-print">\n{body}</main>\n</body>\n</html>\n'


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    block_on_close = False

    def __init__(self, address: tuple[str, int], word: str, state: _State, run: str) -> None:
        self.word, self.state, self.run = word, state, run
        super().__init__(address, _Handler)
        port = self.server_port
        self.hosts = frozenset({f"{HOST}:{port}", f"localhost:{port}"})

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that goes away in the middle is no fault."""


class _Handler(BaseHTTPRequestHandler):
    server: _Server
    server_version, sys_version = "tilespec", ""
    timeout = 30

    def do_GET(self) -> None:
        name = self._asked()
        match name:
            case "":
                with self.server.state.news:
                    html = self.server.state.html
                self._answer("text/html; charset=utf-8", html)
            case "preview.js":
                self._answer("text/javascript; charset=utf-8", data_bytes("templates/preview.js"))
            case "preview.css":
                self._answer("text/css; charset=utf-8", data_bytes("templates/preview.css"))
            case "events":
                self._events()
            case _:
                self.send_error(404)

    def _asked(self) -> str | None:
        """What is asked for, by somebody who knows the word; None else."""
        # Under another name this machine may be asked by a page from elsewhere.
        if self.headers.get("Host", "") not in self.server.hosts:
            return None
        _, word, *name = [*self.path.split("/", 2), ""][:3]
        known = hmac.compare_digest(word.encode("utf-8", "replace"), self.server.word.encode())
        return name[0] if known and self.path.count("/") == 2 else None

    def _head(self, kind: str) -> None:
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Security-Policy", _POLICY)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-store")

    def _answer(self, kind: str, data: bytes) -> None:
        self._head(kind)
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)

    def _events(self) -> None:
        """Tells the version at once, and each new one as it comes, until the browser or the preview ends."""
        self._head("text/event-stream")
        self.end_headers()
        state, told = self.server.state, (-1, False)
        try:
            while True:
                with state.news:
                    if not state.closed and (state.version, state.busy) == told:
                        state.news.wait(PULSE)
                    if state.closed:
                        return
                    now = state.version, state.busy
                if now == told:
                    self.wfile.write(b":\n\n")
                elif now[1]:
                    self.wfile.write(b"event: busy\ndata:\n\n")
                else:
                    self.wfile.write(f"event: version\ndata: {self.server.run}-{now[0]}\n\n".encode())
                told = now
        except OSError:
            return

    def log_message(self, format: str, *args: object) -> None:
        """Nothing: the terminal is for what there is to say about the spec."""
