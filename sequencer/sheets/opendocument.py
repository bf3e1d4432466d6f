"""A table as an OpenDocument spreadsheet (ISO/IEC 26300-1, 26300-2), which any spreadsheet opens
and keeps: every cell is text, so that no length becomes a date. The same table gives the same
bytes.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

_MEDIA_TYPE = "application/vnd.oasis.opendocument.spreadsheet"
_NAMES = "urn:oasis:names:tc:opendocument:xmlns"
_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_WHEN = (1980, 1, 1, 0, 0, 0)
"""The least that an archive can say: no file is dated."""


def spreadsheet(name: str, rows: Sequence[Sequence[str]]) -> bytes:
    """One sheet of that name with these cells."""
    body = "\n".join(
        f"<table:table-row>{''.join(map(_cell, row))}</table:table-row>" for row in rows
    )
    content = (
        f'{_HEAD}<office:document-content xmlns:office="{_NAMES}:office:1.0" '
        f'xmlns:table="{_NAMES}:table:1.0" xmlns:text="{_NAMES}:text:1.0" office:version="1.3">'
        f'<office:body><office:spreadsheet><table:table table:name="{_written(name)}">\n{body}\n'
        "</table:table></office:spreadsheet></office:body></office:document-content>\n"
    )
    entries = "".join(
        f'<manifest:file-entry manifest:full-path="{path}" manifest:media-type="{kind}"/>'
        for path, kind in (("/", _MEDIA_TYPE), ("content.xml", "text/xml"))
    )
    manifest = (
        f'{_HEAD}<manifest:manifest xmlns:manifest="{_NAMES}:manifest:1.0" '
        f'manifest:version="1.3">{entries}</manifest:manifest>\n'
    )
    packed = BytesIO()
    with ZipFile(packed, "w") as archive:
        # The media type comes first, as it is, so that the file's kind shows in its first bytes.
        for path, text, how in (
            ("mimetype", _MEDIA_TYPE, ZIP_STORED),
            ("content.xml", content, ZIP_DEFLATED),
            ("META-INF/manifest.xml", manifest, ZIP_DEFLATED),
        ):
            entry = ZipInfo(path, _WHEN)
            entry.compress_type = how
            archive.writestr(entry, text.encode())
    return packed.getvalue()


def _cell(text: str) -> str:
    if not text:
        return "<table:table-cell/>"
    # Several spaces in a row would be read as one.
    words = _written(text).replace("  ", " <text:s/>")
    return (
        f'<table:table-cell office:value-type="string"><text:p>{words}</text:p></table:table-cell>'
    )


def _written(text: str) -> str:
    """As XML has it; what XML cannot hold goes."""
    kept = "".join(c for c in text if c.isprintable())
    for char, name in (("&", "amp"), ("<", "lt"), (">", "gt"), ('"', "quot")):
        kept = kept.replace(char, f"&{name};")
    return kept
