"""The command that shows a lab to its author, with the key beside it."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import count
from pathlib import Path

import click

from workbook.authoring.preview import PATH_FILE
from workbook.issuing.notebook import encode_notebook
from workbook.labfile.reader import LAB_FILE
from workbook.store import make_folder

#: Where previews are made: never in a lab's folder, and never in a student's.
_PREVIEWS = Path("previews")

#: The notebook of a preview.
NOTEBOOK = "preview.ipynb"

#: Its one call. It holds the key, so it is not among those that run on opening.
CALL = "from workbook.authoring.preview import open_preview\n\nopen_preview()"

_THERE = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command("preview")
@click.argument("lab", type=_THERE)
@click.option("--no-open", "is_closed", is_flag=True, help="Only make the folder.")
def preview_lab(lab: Path, *, is_closed: bool) -> None:
    """Show LAB as a student sees it and the key beside it; saving LAB renews both."""
    place = _name_place(lab.resolve().name)
    with make_folder(place) as draft:
        (draft / PATH_FILE).write_text(f"{lab.resolve()}\n", encoding="utf-8")
        (draft / NOTEBOOK).write_bytes(encode_notebook(_build(lab.resolve().name)))
    notebook = place / NOTEBOOK
    click.echo(f"Wrote {place}, which holds the key: keep it from students.")
    if is_closed:
        click.echo(f"Next: open {notebook} in JupyterLab, and change {lab / LAB_FILE}.")
        return
    click.echo(f"Next: change {lab / LAB_FILE}; {notebook} follows. Ctrl+C ends it.")
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    command = [
        *(sys.executable, "-m", "jupyter", "lab"),
        f"--ServerApp.root_dir={place.resolve()}",
        f"--LabApp.default_url=/lab/tree/{NOTEBOOK}",
        *(["--allow-root"] if is_root else []),
    ]
    subprocess.run(command, check=False)  # noqa: S603 - our own interpreter, no shell


def _name_place(lab: str) -> Path:
    names = (_PREVIEWS / f"{lab}-{number}" for number in count(1))
    return next(name for name in names if not name.exists())


def _build(lab: str) -> dict[str, object]:
    words = f"# Preview of {lab}\n\nChoose **Run > Run All Cells** in the menu."
    return {
        "cells": [
            {"cell_type": "markdown", "id": "head", "metadata": {}, "source": words},
            {
                "cell_type": "code",
                "id": "preview",
                "metadata": {"jupyter": {"source_hidden": True}},
                "outputs": [],
                "execution_count": None,
                "source": CALL,
            },
        ],
        "metadata": {
            "kernelspec": {
                "display_name": "Python 3",
                "language": "python",
                "name": "python3",
            },
            "language_info": {"name": "python"},
        },
        "nbformat": 4,
        "nbformat_minor": 5,
    }
