"""The pieces of a drawing as text."""

from __future__ import annotations

import pytest

from workbook.picture.ink import element, group, letter, number, outline, trace


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (3.0, "3"),
        (0.126, "0.13"),
        (-0.004, "0"),
        (-12.5, "-12.5"),
        (100.0, "100"),
        (5e-9, "0"),
    ],
)
def test_a_coordinate_is_rounded_to_a_hundredth(value: float, written: str) -> None:
    assert number(value) == written


def test_a_path_keeps_its_numbers_apart() -> None:
    assert trace("M", 1, -2, "C", 1.5, 0, 2, 2, "z") == "M1 -2C1.5 0 2 2z"
    assert trace("M1 2", "V", 3) == "M1 2V3"


def test_names_and_values_of_attributes_are_written_for_xml() -> None:
    made = element("rect", class_="a", stroke_width=1.5, fill='"<&')
    assert made == '<rect class="a" stroke-width="1.5" fill="&quot;&lt;&amp;"/>'


def test_a_text_can_t_hold_elements() -> None:
    assert letter("<b>&", 1, 2) == '<text x="1" y="2">&lt;b&gt;&amp;</text>'


def test_a_group_holds_its_parts_in_order() -> None:
    assert group("all", ["<a/>", "<b/>"], x=1) == '<g class="all" x="1"><a/><b/></g>'


def test_an_outline_is_not_filled_unless_it_is_told() -> None:
    assert 'fill="none"' in outline("M", 0, 0)
    assert 'fill="red"' in outline("M", 0, 0, fill="red")
