"""One message of every kind."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Filling,
    Match,
    Matched,
    Noted,
    Ordered,
    Placed,
    Typed,
)
from workbook.wire.message import (
    Explained,
    ExplainStep,
    Held,
    JudgeAttempt,
    Judged,
    Opened,
    OpenSheet,
    Passed,
    PassGate,
    Question,
    Refused,
    Sealed,
    SealHandIn,
    Statement,
    Why,
    WorkedLine,
)
from workbook.wire.sheet import (
    SHEET_VERSION,
    AlgebraStep,
    Cell,
    ChainStep,
    ChoiceStep,
    Factor,
    Given,
    Letter,
    MatchingStep,
    MechanismStep,
    Move,
    NumberStep,
    Option,
    OrderStep,
    OwnStep,
    PredictionStep,
    RangeStep,
    ReadingStep,
    Reagent,
    ReagentRow,
    ReagentsStep,
    Sheet,
    SheetId,
    Side,
    Sight,
    TextStep,
)
from workbook.wire.verdict import Outcome, Verdict

ID = SheetId("autumn", "cold-cream", 2, "s07")

PLACED = (Placed("wax.density", turned=True), Placed("ratio(a, b)", turned=False))

ANSWERS: dict[str, Answer] = {
    "wax_mass": Typed("13,62 g\N{NO-BREAK SPACE}"),
    "wax_amount": Built(PLACED, "0.0258 mol"),
    "wax.molar_mass": Derived(("M = 3x", "x = 12"), "36 g/mol"),
    "hazards": Chosen(("H290", "H314")),
    "match": Matched((Match("wax", ("a",)),)),
    "table": Filled((Filling("wax", "mass", "12,0 g"),), "wax"),
    "weigh": Noted("45.21 g", "misread", "45.12 g"),
    "line": Ordered(("melt", "stir")),
}

SHEET = Sheet(
    version=SHEET_VERSION,
    id=ID,
    title="Cold cream",
    about='Beeswax is melted into almond oil: a line\nand "another".',
    equations=("wax + 2 water → acid",),
    reagents=(Reagent("wax", "wax", "C30H60O2", ("density",), ("H290 …",), "organic"),),
    cautions=("Hot wax burns.",),
    givens=(Given("plan", "mass of wax to plan for", "15.0 g"),),
    rules=("Ties go to even.",),
    prelab=(
        NumberStep(id="plan", asks="What mass?", allowance="0.5 %", unit="g"),
        ChoiceStep(id="pick", asks="Which?", options=(Option("a", "A"),), several=True),
        PredictionStep(id="guess", asks="What then?", options=(Option("a", "A"),)),
        RangeStep(id="melts", asks="From where to where?", unit="°C"),
        MatchingStep(
            id="match",
            asks="What belongs?",
            rows=(Option("wax", "wax"),),
            options=(Option("a", "A"),),
            several=False,
        ),
        MechanismStep(
            id="how",
            asks="How?",
            cards=(
                Move(
                    "a",
                    "A parts",
                    "AB → A⁺ + B⁻",
                    "A B gives A plus and B minus",
                    Side({"AB": 1}, {"A": 1, "B": 1}, 0),
                    Side({"A⁺": 1, "B⁻": 1}, {"A": 1, "B": 1}, 0),
                ),
            ),
        ),
        ReagentsStep(
            id="table",
            asks="Fill in.",
            columns=(Option("mass", "mass"),),
            rows=(ReagentRow("wax", "wax", (Cell("mass", "g", "12 g"),)),),
            asks_limiting=True,
        ),
        OrderStep(id="line", asks="In what order?", cards=(Option("a", "A"),)),
        TextStep(id="notes", asks="What did you see?", prompts=("at first",)),
    ),
    postlab=(
        OwnStep(id="weigh", asks="Weigh.", unit="g", instrument="balance"),
        ReadingStep(id="read", asks="Read.", unit="mL", instrument="tube", seen="…"),
        ChainStep(
            id="chain",
            asks="What amount?",
            unit="mol",
            start="mass of wax",
            start_unit="g",
            start_of="wax",
            end_of="wax",
            offers=(Factor("f", "density", "1", "g", "1", "mL", "wax", "wax"),),
        ),
        AlgebraStep(
            id="derive",
            asks="Derive.",
            unit="g/mol",
            known=("M = 36",),
            letters=(Letter("x", "a third"),),
            wanted="x",
        ),
    ),
)

VERDICT = Verdict(
    Outcome.FIGURES,
    "Too many figures.",
    read_as="13.620 g, 5 figures",
    value_holds=True,
    method_holds=False,
    follows=True,
    parts=(True, False),
    unit_written=False,
    at=2,
)

QUESTIONS: tuple[Question, ...] = (
    OpenSheet(),
    OpenSheet(ID),
    *(JudgeAttempt(ID, step, answer) for step, answer in ANSWERS.items()),
    JudgeAttempt(ID, "wax_mass", Typed("1 g"), dict(ANSWERS)),
    JudgeAttempt(ID, "wax_mass", Typed("1 g"), attempt="3f" * 16),
    SealHandIn(ID, "ab" * 32),
    PassGate(ID, dict(ANSWERS)),
    ExplainStep(ID, "wax_mass", Typed("1 g")),
    ExplainStep(ID, "wax_mass", Typed("1 g"), dict(ANSWERS)),
)

STATEMENTS: tuple[Statement, ...] = (
    Opened(SHEET),
    Judged(VERDICT),
    Sealed("cd" * 32),
    Sealed("cd" * 32, datetime(2026, 11, 3, 9, 30, tzinfo=UTC)),
    Passed((Sight("wax_mass", "It shows 13.62 g.", "<svg></svg>"),)),
    Held(("plan", "hazards")),
    Explained((WorkedLine(r"= 1\ \text{g}", "= 1 g"), WorkedLine("", "wax"))),
    *(Refused(why, "No.") for why in Why),
)


@pytest.fixture
def sheet() -> Sheet:
    return SHEET
