"""The style sheet and the manners of every card."""

from __future__ import annotations

import re

import pytest

from workbook.front.look import Look, lay_look
from workbook.front.saying import INKS

#: Paper of JupyterLab's light and dark themes: --jp-layout-color1, seen in
#: JupyterLab 4.6.6.
PAPERS = ("#ffffff", "#212121")


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 (w3.org/TR/WCAG22/#dfn-relative-luminance)."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2 (w3.org/TR/WCAG22/#dfn-contrast-ratio)."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def read_colours(name: str) -> list[str]:
    return re.findall(
        rf"--wb-{name}: (#[0-9a-f]{{6}});", str(lay_look().get_state()["_css"])
    )


def test_the_contrast_formula_gives_the_published_extremes() -> None:
    # Black on white is 21:1 by the definition.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("ink", sorted(set(INKS.values())))
def test_each_ink_can_be_read_on_the_paper_of_its_theme(ink: str) -> None:
    # WCAG 2.2, success criterion 1.4.3: 4.5:1 for text.
    inks = read_colours(ink)
    assert len(inks) == len(PAPERS)
    for colour, paper in zip(inks, PAPERS, strict=True):
        assert contrast(colour, paper) >= 4.5


def test_the_edge_of_a_control_can_be_seen() -> None:
    # WCAG 2.2, success criterion 1.4.11: 3:1 for parts of controls.
    for colour, paper in zip(read_colours("edge"), PAPERS, strict=True):
        assert contrast(colour, paper) >= 3


#: What a picture stands on: --jp-layout-color1 of its close-up, as above, and
#: --jp-layout-color2 of its plate, seen in JupyterLab 4.6.6; and the text on both.
PLATES = ("#eeeeee", "#424242")
TEXTS = ("#212121", "#ffffff")


@pytest.mark.parametrize("drawn", ["surface", "column"])
def test_what_is_read_on_a_picture_can_be_seen_on_both_grounds(drawn: str) -> None:
    # WCAG 2.2, success criterion 1.4.11: 3:1 for parts of a graphic.
    for colour, paper, plate in zip(read_colours(drawn), PAPERS, PLATES, strict=True):
        assert min(contrast(colour, paper), contrast(colour, plate)) >= 3


def test_the_surface_of_a_liquid_can_be_told_from_the_liquid() -> None:
    inks = zip(read_colours("surface"), read_colours("liquid"), strict=True)
    assert all(contrast(surface, liquid) >= 3 for surface, liquid in inks)


@pytest.mark.parametrize(("ground", "least"), [("liquid", 4.5), ("column", 2.4)])
def test_lines_and_numbers_can_be_read_over_what_the_glass_holds(
    ground: str, least: float
) -> None:
    # 4.5:1 for text. No number stands over a thermometer's column, and its lines
    # reach past it on both sides.
    for colour, text in zip(read_colours(ground), TEXTS, strict=True):
        assert contrast(colour, text) >= least


def test_the_digits_of_a_display_can_be_read_on_its_pane() -> None:
    inks = zip(read_colours("digit"), read_colours("pane"), strict=True)
    assert all(contrast(digit, pane) >= 7 for digit, pane in inks)


def test_the_look_carries_both_files_and_nothing_else() -> None:
    look = lay_look()
    assert isinstance(look, Look)
    sent = look.get_state()
    assert "data-lm-suppress-shortcuts" in sent["_esm"]
    assert ".wb-card" in sent["_css"]
    assert "wb-look" in sent["_dom_classes"]
