"""Data written as YAML, in the one manner of all files that FaultDoc writes."""

from __future__ import annotations

import re
from io import StringIO
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.scalarstring import DoubleQuotedScalarString

from faultdoc.library.source import scalar

__all__ = ["yaml_text"]

_ODD = re.compile("[^\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
"""What goes into a file as an escape only: line ends of any kind, tabs, and what does not print."""


def yaml_text(data: Any, width: int = 100) -> str:
    """Return data as YAML that is read back as it is.

    Args:
        data: of dicts, lists, texts and numbers.
        width: of a line.
    """
    yaml = YAML()
    yaml.indent(mapping=2, sequence=4, offset=2)
    yaml.width = width
    yaml.allow_unicode = True
    stream = StringIO()
    yaml.dump(_quoted(data), stream)
    return stream.getvalue()


def _quoted(data: Any) -> Any:
    """Return the data with every text in quotes that would not be read back as that text without."""
    if isinstance(data, dict):
        return {key: _quoted(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_quoted(value) for value in data]
    if isinstance(data, str) and (scalar(data) != data or _ODD.search(data)):
        return DoubleQuotedScalarString(data)
    return data
