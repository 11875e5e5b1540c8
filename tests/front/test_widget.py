"""Widgets of a kind share their layout and their style, and nothing else."""

from __future__ import annotations

from ipywidgets import HTML, Button, Layout, VBox

from workbook.front.widget import begin_page, make


def test_widgets_of_a_kind_share_layout_and_style() -> None:
    one, two = make(Button, description="One"), make(Button, description="Two")
    assert one.layout is two.layout
    assert one.style is two.style
    assert (one.description, two.description) == ("One", "Two")


def test_kinds_with_other_styles_share_the_layout_alone() -> None:
    button, text = make(Button), make(HTML, "<p>here</p>")
    assert button.layout is text.layout
    assert type(button.style) is not type(text.style)
    assert text.value == "<p>here</p>"


def test_what_has_no_style_is_made_too() -> None:
    held = make(HTML)
    assert make(VBox, [held]).children == (held,)


def test_a_class_is_there_from_the_first_message_on() -> None:
    assert make(HTML, css="wb-says").get_state()["_dom_classes"] == ("wb-says",)


def test_a_layout_that_is_given_stands() -> None:
    layout = Layout(width="50%")
    assert make(VBox, layout=layout).layout is layout


def test_a_new_page_shares_nothing_with_the_one_before() -> None:
    before = make(Button)
    begin_page()
    after = make(Button)
    assert after.layout is not before.layout
    assert after.style is not before.style
