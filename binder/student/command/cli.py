"""The ``workbook`` command of the student image, which says where the real one is."""

from __future__ import annotations

import sys

_ELSEWHERE = (
    "This is the student's side of the lab workbook: it has no commands. Open "
    "prelab.ipynb or postlab.ipynb of your lab's folder in JupyterLab. To issue, mark "
    "or check, install the package lab-workbook in its place."
)


def main() -> None:
    """
    Say what to do instead.

    Raises
    ------
    SystemExit
        Always, with status 2: nothing was done.
    """
    sys.stderr.write(f"{_ELSEWHERE}\n")
    raise SystemExit(2)
