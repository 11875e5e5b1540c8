"""Schemes as SVG: whole, harmless, and read on light and dark pages."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from workbook.authoring.scheme import draw
from workbook.errors import MatterError
from workbook.labfile.drawing import Drawing, Shape

SPACE = "{http://www.w3.org/2000/svg}"
ACID = Shape(1, "acetic acid", "CH3COOH", "CC(=O)O")
LYE = Shape(2, "sodium hydroxide", "NaOH", "[Na+].[OH-]")
ALUM = Shape(1, "blue <vitriol>", "CuSO4·5H2O", "")
FAT = Shape(3, "a long chain", "", "C" * 40)


def read(*shapes: Shape, right: tuple[Shape, ...] = ()) -> ET.Element:
    """Return a drawing as a tree."""
    drawing = Drawing("scheme.svg", "Scheme", shapes, right)
    return ET.fromstring(draw(drawing))  # noqa: S314  our own


def words(root: ET.Element) -> list[str]:
    """Return the words of a drawing."""
    return [text.text or "" for text in root.iter(f"{SPACE}text")]


def test_names_coefficients_and_signs_stand_in_order() -> None:
    root = read(ACID, LYE, right=(ALUM,))
    assert words(root) == [
        "acetic acid",
        "+",
        "2",
        "NaOH",
        "sodium hydroxide",
        "CuSO₄·5H₂O",
        "blue <vitriol>",
    ]


def test_a_structure_has_a_line_for_each_bond_that_is_seen() -> None:
    # Acetic acid: C-C, C=O of two lines, C-O of one or two halves.
    lines = [
        path
        for path in read(ACID).iter(f"{SPACE}path")
        if path.attrib.get("fill") == "none"
    ]
    assert len(lines) >= 4


def test_a_hydrate_of_many_parts_is_written_as_its_formula() -> None:
    sulfate = "[O-]S(=O)(=O)[O-]"
    smiles = ".".join(["[K+].[Al+3]", sulfate, sulfate, *["O"] * 12])
    root = read(Shape(1, "potash alum", "KAl(SO4)2·12H2O", smiles))
    assert words(root) == ["KAl(SO₄)₂·12H₂O", "potash alum"]
    soda = Shape(1, "soda", "Na2CO3", "[Na+].[Na+].[O-]C(=O)[O-]")
    assert words(read(soda)) == ["soda"]


def test_a_charge_is_raised() -> None:
    assert "SO₄²⁻" in words(read(Shape(1, "sulfate", "SO4^2-", "")))


def test_a_drawing_says_itself_and_holds_nothing_that_runs() -> None:
    root = read(ACID, right=(LYE,))
    assert root.attrib["role"] == "img"
    assert root.find(f"{SPACE}title") is not None
    assert "acetic acid, SMILES CC(=O)O" in root.attrib["aria-label"]
    tags = {each.tag.removeprefix(SPACE) for each in root.iter()}
    assert tags <= {"svg", "title", "desc", "rect", "g", "path", "text"}


def test_a_drawing_brings_its_own_paper_for_dark_pages() -> None:
    root = read(ACID)
    paper = root.find(f"{SPACE}rect")
    assert paper is not None
    assert (paper.attrib["fill"], paper.attrib["width"]) == ("#ffffff", "100%")
    inks = {each.attrib.get("fill") for each in root.iter(f"{SPACE}text")}
    assert inks == {"#16191c"}


def test_a_wide_scheme_stands_in_two_rows() -> None:
    def height(root: ET.Element) -> float:
        return float(root.attrib["height"])

    single = height(read(FAT))
    assert height(read(FAT, right=(FAT,))) > 1.8 * single


def test_a_way_back_has_an_arrow_of_two_lines() -> None:
    def arrows(*, is_reversible: bool) -> int:
        shape = Shape(1, "a", "NaCl", "")
        drawing = Drawing("s.svg", "S", (shape,), (shape,), is_reversible)
        return draw(drawing).count(b"<path")

    assert arrows(is_reversible=False) == 1
    assert arrows(is_reversible=True) == 2


def test_the_same_drawing_gives_the_same_bytes_and_its_mark() -> None:
    drawing = Drawing("scheme.svg", "Scheme", (ACID,), (LYE,))
    assert draw(drawing) == draw(drawing)
    assert drawing.is_of(draw(drawing))


def test_a_smiles_that_is_none_is_refused() -> None:
    with pytest.raises(MatterError, match="is no SMILES"):
        read(Shape(1, "x", "", "C(("))


def test_a_coefficient_does_not_touch_its_formula() -> None:
    # Helvetica's widths at 20 units, from memory: N and H 0.722, a 0.556, O 0.778 em.
    formula = 20 * (0.722 + 0.556 + 0.778 + 0.722)
    digit = 18 * 0.556
    term = next(read(LYE).iter(f"{SPACE}g"))
    count, _ = (float(text.attrib["x"]) for text in term.findall(f"{SPACE}text"))
    inner = term.find(f"{SPACE}g")
    assert inner is not None
    moved = float(inner.attrib["transform"].split("(")[1].split()[0])
    middle = float(inner[0].attrib["x"])
    assert moved + middle - formula / 2 > count + digit / 2
