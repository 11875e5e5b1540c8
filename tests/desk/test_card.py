"""A card of the desk, and its buttons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML

from workbook.desk.card import DeskCard, make_button

if TYPE_CHECKING:
    from workbook.front.look import Look


def test_a_card_has_a_heading_that_names_it(look: Look) -> None:
    card = DeskCard(look, "queue", "What <waits>", "A note.")
    head = card.box.children[1].value
    assert '<h3 class="wb-asks" id="wb-queue">What &lt;waits&gt;</h3>' in head


def test_what_is_said_stands_last_and_is_escaped(look: Look) -> None:
    card = DeskCard(look, "queue", "What waits", "A note.")
    part = HTML("x")
    card.lay([part])
    card.say("<b>Nothing.")
    assert card.box.children[2:] == (part, card.says)
    assert "&lt;b&gt;Nothing." in card.says.value


def test_a_notebook_keeps_a_short_text_of_a_card(look: Look) -> None:
    shown = DeskCard(look, "queue", "What waits", "")._repr_mimebundle_()
    assert shown["text/plain"] == "desk: queue"


def test_a_button_does_its_deed() -> None:
    done: list[str] = []
    make_button("Do it", lambda: done.append("done")).click()
    assert done == ["done"]
