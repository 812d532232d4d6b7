"""The page as PDF, by WeasyPrint: the only place that imports it.

Rendering runs in a child process with a time and a memory limit, because it cannot be stopped from inside.
Nothing is fetched: only our own names (`tilespec:...`) are served, and any other request fails the print.
"""

from __future__ import annotations

import base64
import json
import os
import subprocess
import sys
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO

from tilespec.document.html import SCHEME, Asset, Page
from tilespec.resources import data_bytes
from tilespec.source import Source

FONTS = ("DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf", "TilespecForm.ttf")
INSTALL = "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"

TIMEOUT = 300.0  # seconds
MEMORY = 4 * 1024**3  # bytes of address space
_CHILD = "import sys; sys.path[:] = {path!r}; from tilespec.document.pdf import child; child()"


class PrintUnavailable(Exception):
    """The system libraries for a PDF are missing. The message says what to install; HTML, Markdown and JSON need none."""


class PrintFailed(Exception):
    """The PDF could not be made: something was asked for from outside, or time or memory ran out."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, and what there is to say about it: the layout's own complaints, and characters that the font lacks."""

    data: bytes
    notes: tuple[str, ...]
    missing: tuple[str, ...]


class Press:
    """The child process that prints one page. Started early, it loads its libraries while the page is being made."""

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None
        try:
            self._process = subprocess.Popen(
                [sys.executable or "", "-c", _CHILD.format(path=sys.path)],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
            )
        except (OSError, ValueError):
            pass  # a system without child processes: unguarded, but it prints

    def __enter__(self) -> Press:
        return self

    def __exit__(self, *_: object) -> None:
        """Stops the child when nothing was printed."""
        if self._process is not None and self._process.returncode is None:
            self._process.kill()
            self._process.communicate()

    def print(self, page: Page, *, timeout: float = TIMEOUT, memory: int = MEMORY) -> Printed:
        """The PDF of a page; once. Raises PrintUnavailable and PrintFailed."""
        if self._process is None:
            return _render(page)
        try:
            out, err = self._process.communicate(_pack(page, memory), timeout=timeout)
        except subprocess.TimeoutExpired:
            raise PrintFailed(
                f"the layout took longer than {timeout:g} seconds: print part by part, or less in one job"
            ) from None
        return _unpack(out, err.decode("utf-8", "replace"), self._process.returncode)


def write(page: Page, *, timeout: float = TIMEOUT, memory: int = MEMORY) -> Printed:
    """The PDF of a page. Raises PrintUnavailable and PrintFailed. The same page gives the same bytes."""
    with Press() as press:
        return press.print(page, timeout=timeout, memory=memory)


# ---------------------------------------------------------------- to and from the child


def _pack(page: Page, memory: int) -> bytes:
    return json.dumps(
        {
            "memory": memory,
            "text": page.text,
            "style": page.style,
            "title": page.title,
            "author": page.author,
            "created": page.created,
            "language": page.language,
            "paper": page.paper,
            "assets": [[a.name, base64.b64encode(a.data).decode("ascii"), a.media_type] for a in page.assets],
        }
    ).encode("utf-8")


def child() -> None:
    """Runs in the child process: a request on standard input, the answer on standard output."""
    try:
        import weasyprint  # noqa: F401  (loaded while the page is still being made)
    except OSError:
        pass  # said when the page is there
    request = json.loads(sys.stdin.buffer.read())
    _limit(request.pop("memory"))
    request["assets"] = tuple(Asset(name, base64.b64decode(data), kind) for name, data, kind in request["assets"])
    answer: dict[str, object]
    data = b""
    try:
        printed = _render(Page(**request))
        data = printed.data
        answer = {"notes": printed.notes, "missing": printed.missing}
    except PrintUnavailable as fault:
        answer = {"unavailable": str(fault)}
    except PrintFailed as fault:
        answer = {"failed": str(fault)}
    except MemoryError:
        answer = {"failed": "the layout ran out of memory: print part by part, or less in one job"}
    head = json.dumps(answer).encode("utf-8")
    sys.stdout.buffer.write(len(head).to_bytes(8, "big") + head + data)
    sys.stdout.buffer.flush()


def _unpack(out: bytes, err: str, status: int) -> Printed:
    size = int.from_bytes(out[:8], "big")
    if status or len(out) < 8 + size:
        last = err.strip().splitlines()[-1:] or [f"the layout ended with status {status}"]
        if "MemoryError" in last[0] or status < 0:
            last = ["the layout ran out of memory or was stopped: print part by part, or less in one job"]
        raise PrintFailed(last[0])
    answer = json.loads(out[8 : 8 + size])
    if "unavailable" in answer:
        raise PrintUnavailable(answer["unavailable"])
    if "failed" in answer:
        raise PrintFailed(answer["failed"])
    return Printed(out[8 + size :], tuple(answer["notes"]), tuple(answer["missing"]))


def _limit(memory: int) -> None:
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    except (ImportError, ValueError, OSError):
        pass  # not every system has such limits


# ---------------------------------------------------------------- rendering


def _render(page: Page) -> Printed:
    # No date of the machine in the file.
    os.environ.setdefault("SOURCE_DATE_EPOCH", "0")
    try:
        import weasyprint
        from weasyprint.text.fonts import FontConfiguration
        from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse
    except OSError:
        raise PrintUnavailable(
            f"a PDF needs system libraries that are missing here. On Debian and Ubuntu: sudo {INSTALL}\n"
            "Until then print to HTML (--to html) and print that from a browser."
        ) from None
    import logging

    served = {f"{SCHEME}{a.name}": a for a in page.assets}
    served.update({f"{SCHEME}fonts/{name}": Asset(name, data_bytes(f"templates/fonts/{name}"), "font/ttf") for name in FONTS})
    refused: list[str] = []

    class Fetcher(URLFetcher):  # type: ignore[misc]
        """Our own names only. Keeps what it refused: an image inside a drawing hides the error."""

        def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
            asset = served.get(url)
            if asset is None:
                refused.append(url[:200])
                raise FatalURLFetchingError(f"not fetched: {url[:200]}")
            return URLFetcherResponse(url, asset.data, {"Content-Type": asset.media_type})

    notes: list[str] = []

    class Listener(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            notes.append(record.getMessage())

    listener = Listener(logging.WARNING)
    logger = logging.getLogger("weasyprint")
    logger.addHandler(listener)
    try:
        fonts = FontConfiguration()
        fetcher = Fetcher()
        html = weasyprint.HTML(string=page.document(), url_fetcher=fetcher)
        data = html.write_pdf(font_config=fonts, pdf_variant="pdf/ua-1", pdf_tags=True, pdf_forms=True)
    except FatalURLFetchingError:
        data = b""
    finally:
        logger.removeHandler(listener)
    if refused:
        raise PrintFailed(
            f"the print asks for something from outside, which is never fetched: {', '.join(dict.fromkeys(refused))}"
        )
    assert data is not None
    return Printed(data, tuple(dict.fromkeys(notes)), missing_glyphs(page.text))


def missing_glyphs(text: str) -> tuple[str, ...]:
    """Characters that the bundled font lacks, in the order of their codes."""
    return tuple(sorted(c for c in set(text) if ord(c) > 126 and ord(c) not in _covered()))


def where_missing(characters: tuple[str, ...], sources: tuple[Source, ...]) -> tuple[str, ...]:
    """A note for each character that cannot be printed, with its first place in the texts that were read."""
    notes = []
    for c in characters:
        found = next(((s, at) for s in sources if (at := s.text.find(c)) >= 0), None)
        place = ""
        if found is not None:
            line, column = found[0].line_column(found[1])
            place = f"{found[0].name}:{line}:{column}: "
        notes.append(f"{place}the print's font has no sign for U+{ord(c):04X}; write it in other letters")
    return tuple(notes)


@lru_cache(maxsize=1)
def _covered() -> frozenset[int]:
    from fontTools.ttLib import TTFont

    font = TTFont(BytesIO(data_bytes(f"templates/fonts/{FONTS[0]}")), lazy=True)
    return frozenset(font.getBestCmap())
