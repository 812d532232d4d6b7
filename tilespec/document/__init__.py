"""From everything above to one document, and from the document to Markdown, HTML, PDF and JSON."""

from tilespec.document.compose import compose
from tilespec.document.model import PARTS, Document

__all__ = ["PARTS", "Document", "compose"]
