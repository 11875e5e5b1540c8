"""``workbook paper``: problem sets with their answer books."""

from __future__ import annotations

from pathlib import Path

from tests.support.command import run
from tests.support.soap import LAB, make_course, name_sheet
from workbook.solver.source import KEY_FILE, CourseSource


def test_each_student_gets_a_page_with_their_own_readings(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    result = run("paper", course, "--to", "out", "--about", "percent-yields")
    assert result.exit_code == 0
    page = Path("out/papers.html").read_text(encoding="utf-8")
    source = CourseSource(course)
    for student in ("a1", "b2", "c3"):
        assert f"{source.case(name_sheet(student)).values['dish']:.2f} g" in page
    assert result.output.splitlines()[-1].startswith(
        "Wrote 3 papers of a page to out/papers.html"
    )


def test_the_answer_book_answers_what_is_asked_and_no_more(tmp_path: Path) -> None:
    run(
        *("paper", make_course(tmp_path), "--to", "out"),
        *("--pick", f"{LAB}/oil_mass", "--variants", 2),
    )
    book = Path("out/answers.html").read_text(encoding="utf-8")
    assert book.count("<section>") == 2
    assert book.count("<td>1. mass of olive oil</td>") == 2
    assert "percent yield" not in book


def test_the_answer_book_numbers_answers_as_the_paper_does(tmp_path: Path) -> None:
    picks = ("--pick", f"{LAB}/oil_amount", "--pick", f"{LAB}/splash")
    run("paper", make_course(tmp_path), "--to", "out", *picks, "--variants", 1)
    paper = Path("out/papers.html").read_text(encoding="utf-8")
    book = Path("out/answers.html").read_text(encoding="utf-8")
    assert "<b>1.</b> Lye splashes on your wrist." in paper
    assert "<b>2.</b> What amount of oil is that?" in paper
    assert "<td>2. amount of olive oil</td>" in book


def test_more_variants_leave_the_first_as_they_were(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    for place, count in (("one", 2), ("two", 3)):
        run(
            *("paper", course, "--to", place, "--about", "percent-yields"),
            *("--variants", count),
        )
    one, two = (Path(p, "papers.html").read_text("utf-8") for p in ("one", "two"))
    fewer, more = one.split("<section"), two.split("<section")
    assert (len(fewer), len(more)) == (3, 4)
    assert fewer[1] == more[1]
    assert "variant-0003" in more[3]


def test_a_step_that_is_not_there_is_told(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    result = run("paper", course, "--to", "out", "--pick", f"{LAB}/oil_mas")
    assert result.exit_code == 2
    assert "Did you mean 'oil_mass'?" in result.stderr
    assert not Path("out").exists()


def test_a_whole_lab_is_printed_on_both_sides(tmp_path: Path) -> None:
    result = run("paper", make_course(tmp_path), "--to", "out", "--pick", LAB)
    assert "3 papers of 4 pages" in result.output
    assert "on both sides of the paper" in result.output


def test_a_class_without_computers_needs_no_issued_folders(tmp_path: Path) -> None:
    course = make_course(tmp_path, has_key=False)
    run("paper", course, "--to", "first", "--about", "percent-yields")
    assert (tmp_path / KEY_FILE).exists()
    run("paper", course, "--to", "second", "--about", "percent-yields")
    first, second = (Path(p, "papers.html").read_text() for p in ("first", "second"))
    assert first == second
