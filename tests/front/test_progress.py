"""How far a student has come."""

from __future__ import annotations

from workbook.front.progress import Progress, count, draw_steps


def test_the_words_count_right_steps() -> None:
    assert count(3, 9) == "3 of 9 steps done"


def test_a_right_step_has_a_second_rule() -> None:
    # Nine upper lines and three lower ones.
    assert draw_steps(3, 9).count("M") == 12


def test_a_part_without_steps_draws_nothing() -> None:
    assert 'width="0"' in draw_steps(0, 0)


def test_the_line_is_updated_and_prints_the_same_text_always() -> None:
    progress = Progress()
    progress.show(1, 2)
    assert "1 of 2 steps done" in progress.line.value
    assert progress._repr_mimebundle_()["text/plain"] == "progress"
