"""
The lab workbook: pre-lab and post-lab notebooks with values for each student.

A notebook needs `open_sheet` only. Importing the package loads no pandas, no
SymPy and nothing of the key side.
"""

from __future__ import annotations

__all__: list[str] = []
