"""How netcheck knows a file that it wrote itself: by how the file begins."""

import re
import struct
import zlib

__all__ = ["is_signed", "is_to_fill_in", "sign"]

_PNG_HEADER = 33  # eight bytes of magic and the IHDR chunk, which always comes first
_PNG_WORD = b"tEXtSoftware\0netcheck"

_SARIF = (
    rb'\{\n +"\$schema": "[^"\n]*",\n +"version": "2.1.0",\n +"runs": \[\n +\{\n'
    rb' +"tool": \{\n +"driver": \{\n +"name": "netcheck",'
)

_BEGINNINGS = (
    rb"\Z",  # an empty file: nothing is lost with it
    # A full report, by its command and the empty line after its files: another program's log may begin with the name.
    rb"netcheck (?:bench|buy|check|compare|draw|job|record|all [A-Za-z0-9._-]+): [^\n]*\n(?:  [^\n]*\n)*\n",
    rb"netcheck (?:lugs|supply): [^\n]*\n",
    rb'\{\n  "generator": "netcheck",',
    _SARIF,
    rb'\[\n  \{\n    "engine_name": "netcheck",',
    rb"\[\]\n\Z",  # the same, with nothing to tell
    rb"number,grade,rule,headline,why,do,mend,file,line,column,other places,",
    rb"<!-- written by netcheck -->\n",
    rb"// drawn by netcheck\n",
    rb"<!DOCTYPE html>\n<!-- drawn by netcheck -->\n",
    rb"<\?xml [^>]*\?>\s*<!-- drawn by netcheck -->",
    rb"\x89PNG\r\n\x1a\n.{25}.{4}" + re.escape(_PNG_WORD),
)
_SIGNED = re.compile(b"|".join(b"(?:%b)" % one for one in _BEGINNINGS), re.DOTALL)


def is_signed(head: bytes) -> bool:
    """Whether a file that begins so is one of netcheck's own; a netlist can't begin so."""
    return _SIGNED.match(head) is not None


def is_to_fill_in(head: bytes) -> bool:
    """Whether a file that begins so may be a sheet for a spreadsheet, in which readings may have been written since."""
    return head.partition(b"\n")[0].rstrip(b"\r").endswith(b",table")


def sign(picture: bytes, suffix: str) -> bytes:
    """The picture (``.svg``, ``.dot``, ``.png``) with netcheck's mark near its beginning, where nothing shows."""
    if suffix == ".png":
        chunk = struct.pack(">I", len(_PNG_WORD) - 4) + _PNG_WORD + struct.pack(">I", zlib.crc32(_PNG_WORD))
        return picture[:_PNG_HEADER] + chunk + picture[_PNG_HEADER:]
    if suffix == ".dot":
        return b"// drawn by netcheck\n" + picture
    prolog, end, rest = picture.partition(b"?>")
    if not end:
        return b'<?xml version="1.0" encoding="UTF-8"?>\n<!-- drawn by netcheck -->\n' + picture
    return prolog + end + b"\n<!-- drawn by netcheck -->" + rest
