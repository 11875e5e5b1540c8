"""The instructor's desk: a notebook in which a person looks, marks and compares."""

from __future__ import annotations

from workbook.desk.desk import open_desk

__all__ = ["open_desk"]
