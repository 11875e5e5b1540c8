"""Writing so that a crash, a full disk or a second writer loses nothing."""

from __future__ import annotations

from workbook.store.file import write_file, write_new
from workbook.store.folder import is_free, make_folder, set_aside
from workbook.store.line import append_line

__all__ = [
    "append_line",
    "is_free",
    "make_folder",
    "set_aside",
    "write_file",
    "write_new",
]
