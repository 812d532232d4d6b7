"""The template layer: wording in files, numbers only with a trace.

A template may print a quantity or a word of the practice (each gets its reference mark), words of the spec (they are escaped),
a `Ref`, and text without digits. Anything else is refused, so that no number can reach paper unexplained.
A firm may replace files of the same names by its own; those run in a sandbox.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Protocol

from tilespec.document.escape import md_escape
from tilespec.document.show import show, show_product
from tilespec.document.text import Ref, Said
from tilespec.document.trace import Marked, Traces
from tilespec.job.types import Words
from tilespec.practice.lookup import Word
from tilespec.quantity import Quantity
from tilespec.resources import Incomplete, data_dir, data_text

if TYPE_CHECKING:
    from jinja2 import BaseLoader, Environment
    from markupsafe import Markup

    from tilespec.document.markdown import PrintedText


class BareNumber(Exception):
    """A template would print a number that says nothing about where it comes from."""


class NothingToPrint(Exception):
    """A template would print a value that is missing, or one that has no printed form."""


class WordingMissing(Exception):
    """A wording file lacks the macro for something the document holds."""


def faults() -> tuple[type[Exception], ...]:
    """What a faulty wording raises, for those who have to tell a firm about its own."""
    from jinja2 import TemplateError

    return TemplateError, BareNumber, NothingToPrint, WordingMissing


class FirmFolder(Protocol):
    """A firm's own templates."""

    def __call__(self, name: str) -> str | None:
        """The text of a template, or None where the firm keeps the bundled one."""


# These name things; a backslash in a date or a mark helps nobody.
_PLAIN_REFS = frozenset({"step", "part", "mark", "date", "time", "letter", "fingerprint", "version", "drawing"})


def ref_text(ref: Ref) -> str:
    return ref.text if ref.kind in _PLAIN_REFS else md_escape(ref.text)


class Templates:
    """The templates of one firm (or the bundled ones), and what is being printed with them."""

    def __init__(self, firm: FirmFolder | None = None) -> None:
        self._env = _environment(self, firm)
        self._firm = firm
        self._family = "EN"
        self._traces: Traces | None = None
        self._marks: dict[str, None] = {}

    def render(self, name: str, traces: Traces, family: str, **context: object) -> tuple[str, tuple[str, ...]]:
        """One template's text, and the reference marks that were printed, in order of first use.

        Raises BareNumber, NothingToPrint, WordingMissing, Untraced, and Jinja's own errors for a faulty template.
        """
        self._traces, self._family, self._marks = traces, family, {}
        try:
            text = self._env.get_template(name).render(**context)
            return text, tuple(self._marks)
        finally:
            self._traces = None

    def source(self, name: str) -> str:
        """The text of a file of the templates as it stands, such as the style sheet."""
        text = (self._firm(name) if self._firm else None) or bundled(name)
        if text is None:
            raise NothingToPrint(f"no template is called {name}")
        return text

    # What templates may call.

    def text(self, value: object) -> Markup:
        """How a value is printed, as Markdown. This is what refuses bare numbers."""
        from jinja2 import Undefined
        from markupsafe import Markup

        if isinstance(value, (Quantity, Word)):
            return Markup(self._quantity(value))
        if isinstance(value, (Said, Words)):
            return Markup(md_escape(value.text))
        if isinstance(value, Ref):
            return Markup(ref_text(value))
        if isinstance(value, Undefined):
            return Markup(str(value))  # raises, with the name that is missing
        if isinstance(value, Markup):
            return value
        if isinstance(value, str):
            if any(c.isdigit() for c in value):
                raise BareNumber(f"a number without a trace: {value!r}")
            return Markup(md_escape(value))
        if isinstance(value, (int, float, Fraction)) or hasattr(value, "as_tuple"):
            raise BareNumber(f"a number without a trace: {value!r}")
        raise NothingToPrint(f"nothing to print: {value!r}")

    def _quantity(self, q: Marked) -> str:
        if self._traces is None:
            raise RuntimeError("a quantity is printed only while a document is rendered")
        mark = self._traces.mark(q)
        self._marks.setdefault(mark)
        return f"{md_escape(q.text) if isinstance(q, Word) else show(q, self._family)}^{mark}^"

    def by(self, *quantities: Quantity) -> Markup:
        """`300 × 300 × 9 mm`: sizes of one reason with one mark, others each with its own."""
        from markupsafe import Markup

        texts = [self._quantity(q) for q in quantities]
        marks = {t.rpartition("^")[0].rpartition("^")[2] for t in texts}
        if len(marks) == 1:
            return Markup(f"{show_product(quantities, self._family)}^{marks.pop()}^")
        return Markup(" × ".join(texts))

    def unmarked(self, q: Marked) -> Markup:
        """A quantity or a word whose mark stands at another place on the same row. It is recorded all the same."""
        from markupsafe import Markup

        return Markup(self._quantity(q).split("^", 1)[0])

    def word(self, module: str, kind: str, part: str, *args: object) -> Markup:
        """The wording `<kind>_<part>` of a wording file, called with `args`. Raises WordingMissing."""
        from markupsafe import Markup

        macro = self._macro(module, kind, part)
        if macro is None:
            raise WordingMissing(f"templates/wording/{module}.md.j2 has no {_macro_name(kind, part)}")
        return Markup(str(macro(*args)).strip())

    def word_or_none(self, module: str, kind: str, part: str, *args: object) -> Markup | None:
        """The same, or None where the file has no such wording or it comes out empty."""
        if self._macro(module, kind, part) is None:
            return None
        return self.word(module, kind, part, *args) or None

    def has_word(self, module: str, kind: str, part: str) -> bool:
        return self._macro(module, kind, part) is not None

    def _macro(self, module: str, kind: str, part: str) -> Callable[..., object] | None:
        found: Callable[..., object] | None = getattr(self._module(f"wording/{module}.md.j2"), _macro_name(kind, part), None)
        return found

    def _module(self, name: str) -> object:
        return self._env.get_template(name).module  # Jinja keeps it with the template

    def listing(self, values: Iterable[object], last: str = "and") -> Markup:
        """`a, b and c`."""
        from markupsafe import Markup

        texts = [self.text(v) for v in values]
        if len(texts) < 2:
            return Markup("").join(texts)
        return Markup(", ").join(texts[:-1]) + Markup(" {} ").format(last) + texts[-1]

    def once(self, values: Iterable[object]) -> tuple[Markup, ...]:
        """As printed, what would be printed twice only once."""
        return tuple(dict.fromkeys(self.text(v) for v in values))

    def cell(self, text: object) -> Markup:
        """Text for a table cell: on one line."""
        from markupsafe import Markup

        return Markup(" ".join(str(self.text(text)).split()))

    def capitalise(self, text: object) -> Markup:
        """With a capital at the start of a sentence."""
        from markupsafe import Markup

        plain = str(self.text(text))
        return Markup(plain[:1].upper() + plain[1:])

    def code(self, printed: PrintedText) -> Markup:
        """Lines of a text that was read, as they stand, each behind its mark."""
        from markupsafe import Markup

        lines = [f"{line.mark.text} {line.code.text}" for line in printed.lines]
        # Longer than any run of the same sign in the text, so that no line of it can end the block.
        fence = "~" * max(3, *(len(run) + 1 for line in lines for run in _TILDES.findall(line) or [""]))
        return Markup("\n".join([f"{fence}spec", *lines, fence]))


_TILDES = re.compile("~+")


def _macro_name(kind: str, part: str) -> str:
    name = kind.replace("-", "_").replace(" ", "_")
    return f"{name}_{part}" if part else name


def _environment(templates: Templates, firm: FirmFolder | None) -> Environment:
    from jinja2 import Environment, StrictUndefined, pass_context
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    @pass_context
    def finalize(context: object, value: object) -> Markup:
        # Asking for the context keeps Jinja from folding constants at compile time, which would let `{{ 3 }}` through.
        return templates.text(value)

    kind = ImmutableSandboxedEnvironment if firm else Environment
    env = kind(
        autoescape=True,
        finalize=finalize,
        undefined=StrictUndefined,
        loader=_loader(firm),
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        cache_size=200,
    )
    env.filters.update(
        listing=templates.listing,
        once=templates.once,
        cell=templates.cell,
        unmarked=templates.unmarked,
        capitalise=templates.capitalise,
    )
    env.globals.update(
        by=templates.by,
        word=templates.word,
        word_or_none=templates.word_or_none,
        has_word=templates.has_word,
        code=templates.code,
    )
    return env


@lru_cache(maxsize=None)
def bundled(name: str) -> str | None:
    """The text of a bundled template, or None."""
    data_dir("templates")  # raises Incomplete where all of them are missing
    try:
        return data_text(f"templates/{name}")
    except (Incomplete, ValueError):
        return None


def _loader(firm: FirmFolder | None) -> BaseLoader:
    from jinja2 import BaseLoader, TemplateNotFound

    class Loader(BaseLoader):
        """A firm's files before the bundled ones, and no name that is not bundled."""

        def get_source(self, environment: Environment, template: str) -> tuple[str, str | None, Callable[[], bool] | None]:
            text = bundled(template)
            if text is None:
                raise TemplateNotFound(template)
            own = firm(template) if firm else None
            return own if own is not None else text, None, lambda: True

    return Loader()
