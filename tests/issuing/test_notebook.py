"""The two notebooks of a lab, made from its public half alone."""

from __future__ import annotations

import dataclasses
import inspect
import json
from typing import TYPE_CHECKING

import nbformat
import pytest

from tests.support.lab import make_lab
from tests.support.variant import VARIED
from workbook.issuing.notebook import build_notebooks, encode_notebook

if TYPE_CHECKING:
    from pathlib import Path

    from nbformat import NotebookNode

    from workbook.labfile.half import PublicHalf

NAMES = ("prelab.ipynb", "postlab.ipynb")


def read(public: PublicHalf, name: str) -> NotebookNode:
    """Return a notebook as the library of its format reads it."""
    content = encode_notebook(build_notebooks(public)[name]).decode()
    notebook: NotebookNode = nbformat.reads(content, as_version=4)
    return notebook


def sources(notebook: NotebookNode, kind: str) -> list[str]:
    return [cell.source for cell in notebook.cells if cell.cell_type == kind]


@pytest.mark.parametrize("name", NAMES)
def test_a_notebook_is_valid_in_the_open_format(public: PublicHalf, name: str) -> None:
    nbformat.validate(read(public, name))


@pytest.mark.parametrize("name", NAMES)
def test_a_notebook_is_laid_out_as_the_library_saves_it(
    public: PublicHalf, name: str
) -> None:
    ours = encode_notebook(build_notebooks(public)[name]).decode()
    assert nbformat.writes(read(public, name)) + "\n" == ours


@pytest.mark.parametrize("name", NAMES)
def test_building_twice_gives_the_same_bytes(public: PublicHalf, name: str) -> None:
    first, second = (encode_notebook(build_notebooks(public)[name]) for _ in range(2))
    assert first == second


def test_code_cells_are_the_workbooks_own_calls(public: PublicHalf) -> None:
    code = sources(read(public, "postlab.ipynb"), "code")
    cards = [f'page.card("{ask.id}")' for ask in public.postlab]
    opening = 'from workbook import open_sheet\n\npage = open_sheet("postlab")\npage'
    assert code == [opening, *cards, "page.hand_in()", "page.report()"]


def test_the_pre_lab_opens_its_own_part(public: PublicHalf) -> None:
    code = sources(read(public, "prelab.ipynb"), "code")
    assert 'page = open_sheet("prelab")' in code[0].splitlines()
    assert code[1] == 'page.card("lye_statements")'


@pytest.mark.parametrize("name", NAMES)
def test_code_is_hidden_and_has_not_been_run(public: PublicHalf, name: str) -> None:
    for cell in read(public, name).cells:
        if cell.cell_type == "code":
            assert cell.metadata == {"jupyter": {"source_hidden": True}}
            assert (cell.outputs, cell.execution_count) == ([], None)


@pytest.mark.parametrize("name", NAMES)
def test_no_widget_state_is_saved(public: PublicHalf, name: str) -> None:
    metadata = read(public, name).metadata
    assert set(metadata) == {"kernelspec", "language_info", "lab_workbook"}
    assert metadata["lab_workbook"] == {"runs_on_opening": True}


@pytest.mark.parametrize("name", NAMES)
def test_the_first_cell_tells_what_to_press(public: PublicHalf, name: str) -> None:
    assert "Run > Run All Cells" in sources(read(public, name), "markdown")[0]


@pytest.mark.parametrize("name", NAMES)
def test_cautions_defer_to_the_site(public: PublicHalf, name: str) -> None:
    text = "\n".join(sources(read(public, name), "markdown"))
    assert "Lye burns skin and blinds eyes." in text
    assert "rules of your site, its safety data sheets and its licensed staff" in text


def test_substances_stand_in_a_table_with_official_texts(public: PublicHalf) -> None:
    text = "\n".join(sources(read(public, "prelab.ipynb"), "markdown"))
    # The official text of H314: GHS, Annex 3.
    assert "H314 Causes severe skin burns and eye damage" in text
    formula = r"$\mathrm{C_{57}H_{104}O_{6}}$"
    assert f"| olive oil | {formula} | density 0.911 g/mL at 20 °C |" in text


def test_the_builder_can_only_be_given_the_public_half() -> None:
    hints = inspect.get_annotations(build_notebooks)
    assert hints["public"] == "PublicHalf"


def test_no_relation_stands_in_a_notebook(public: PublicHalf) -> None:
    for notebook in build_notebooks(public).values():
        text = json.dumps(notebook)
        assert "recovery" not in text
        assert "oil_volume * oil.density" not in text


def test_a_text_can_be_no_markup(public: PublicHalf) -> None:
    loud = dataclasses.replace(
        public, about="- a | b <b>c</b> $x$ *d* \n# e", title="1. `T`"
    )
    title, about, *_ = sources(read(loud, "prelab.ipynb"), "markdown")
    assert about == (
        "&#45; a &#124; b &#60;b&#62;c&#60;/b&#62; &#36;x&#36; &#42;d&#42; &#35; e"
    )
    assert title.startswith("# Before the lab: 1&#46; &#96;T&#96;\n")


def test_what_varies_is_listed_in_all_its_ways(tmp_path: Path) -> None:
    notebook = read(make_lab(tmp_path, VARIED).public, "prelab.ipynb")
    text = "\n".join(sources(notebook, "markdown"))
    assert "Acid for rinsing: acetic acid; or oxalic acid." in text
    assert "| acetic acid |" in text
    assert "| oxalic acid |" in text
    assert "2 acetic acid" in text
