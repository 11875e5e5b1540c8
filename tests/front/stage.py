"""A sheet with a step of every kind, a small judge, and hands of a browser."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.wire.message import JudgeAttempt, Judged, Opened, OpenSheet, Sealed
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
    TextStep,
)
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.wire.message import Question, Statement

READING = ReadingStep(
    id="oil_volume",
    asks="What volume of almond oil did you take?",
    allowance="Within a fifth of a division.",
    unit="mL",
    instrument="graduated cylinder, 25 mL, divisions of 0.5 mL",
    seen="The meniscus stands on the fourth line over 10 mL.",
)
OWN = OwnStep(
    id="jar",
    asks="What does your empty jar weigh?",
    allowance="To 0.01 g, between 30.00 and 60.00 g.",
    unit="g",
    instrument="top-loading balance, display in steps of 0.01 g",
)
CHAIN = ChainStep(
    id="oil_mass",
    asks="What mass of oil is that?",
    unit="g",
    start="volume of almond oil",
    start_unit="mL",
    start_of="almond oil",
    end_of="almond oil",
    offers=(
        Factor(
            "density", "density", "0.911", "g", "1", "mL", "almond oil", "almond oil"
        ),
        Factor("molar", "molar mass", "", "g", "1", "mol", "almond oil", "almond oil"),
        Factor("wax", "density of wax", "0.96", "g", "1", "mL", "wax", "wax"),
    ),
)
ALGEBRA = AlgebraStep(
    id="acid_part",
    asks="Derive the molar mass of the acid part.",
    unit="g/mol",
    known=("The oil is C3H5 with 3 acid parts.",),
    letters=(Letter("A", "molar mass of the acid part, in g/mol"),),
    wanted="A",
)
ONE = ChoiceStep(
    id="limiting",
    asks="Which limits?",
    options=(Option("oil", "the oil"), Option("wax", "the wax")),
    several=False,
)
SEVERAL = ChoiceStep(
    id="wear",
    asks="What do you wear?",
    options=(Option("goggles", "goggles"), Option("gloves", "gloves")),
    several=True,
)
NUMBER = NumberStep(id="share", asks="What share is wax?", unit="%")
PREDICTION = PredictionStep(
    id="feel",
    asks="How will the cream feel?",
    options=(Option("firm", "firm"), Option("soft", "soft")),
)
RANGE = RangeStep(id="melts", asks="Write the melting range.", unit="°C")
STATEMENTS = MatchingStep(
    id="statements",
    asks="Which statements belong to which substance?",
    rows=(Option("oil", "almond oil"), Option("wax", "wax")),
    options=(Option("fire", "It burns"), Option("eyes", "It stings")),
    several=True,
)
STREAMS = MatchingStep(
    id="streams",
    asks="Where does each go?",
    rows=(Option("oil", "almond oil"), Option("wax", "wax")),
    options=(Option("bin", "the bin"), Option("drum", "the drum")),
    several=False,
)
PARTS = Move(
    "parts",
    "the salt parts",
    "AB → A⁺ + B⁻",
    "A B gives A plus and B minus",
    Side({"AB": 1}, {"A": 1, "B": 1}, 0),
    Side({"A⁺": 1, "B⁻": 1}, {"A": 1, "B": 1}, 0),
)
LOSES = Move(
    "loses",
    "it loses <B>",
    "A⁺ → A",
    "A plus gives A",
    Side({"A⁺": 1}, {"A": 1}, 1),
    Side({"A": 1}, {"A": 1}, 0),
)
MEETS = Move(
    "meets",
    "they meet",
    "A⁺ + C → AC⁺",
    "A plus and C give A C plus",
    Side({"A⁺": 1, "C": 1}, {"A": 1, "C": 1}, 1),
    Side({"AC⁺": 1}, {"A": 1, "C": 1}, 1),
)
MECHANISM = MechanismStep(id="how", asks="How does it go?", cards=(LOSES, MEETS, PARTS))
PLAN = ReagentsStep(
    id="plan",
    asks="Fill in your plan.",
    columns=(Option("mass", "mass"), Option("amount", "amount"), Option("ratio", "eq")),
    rows=(
        ReagentRow(
            "oil", "almond oil", (Cell("mass", "", "12 g"), Cell("amount", "mol"))
        ),
        ReagentRow("wax", "wax", (Cell("amount", "mol"), Cell("ratio", ""))),
    ),
    asks_limiting=True,
)
ORDER = OrderStep(
    id="melting",
    asks="In what order do you melt?",
    cards=(
        Option("stir", "stir the wax"),
        Option("heat", "heat the bath"),
        Option("weigh", "weigh the wax"),
    ),
)
TEXT = TextStep(
    id="notes", asks="What did you see?", prompts=("while it melted", "as it set")
)

SHEET = Sheet(
    version=SHEET_VERSION,
    id=SheetId("autumn", "cold-cream", 1, "s07"),
    title="Cold cream",
    about="Beeswax is melted into almond oil.",
    equations=("A + B -> C",),
    reagents=(
        Reagent(
            "oil", "almond oil", "C57H104O6", ("0.911 g/mL",), ("H000 none",), "oil"
        ),
    ),
    cautions=("Your site's own rules decide.",),
    givens=(Given("batch", "mass of cream to plan for", "25.0 g"),),
    rules=("Ties go to the even digit.",),
    prelab=(PREDICTION, TEXT, ORDER, STATEMENTS, STREAMS, PLAN, MECHANISM, RANGE),
    postlab=(READING, CHAIN, ALGEBRA, ONE, SEVERAL, NUMBER, OWN),
)


class FakeJudge:
    """Gives the verdict that was set for a step, or finds it right."""

    def __init__(self) -> None:
        self.verdicts: dict[str, Verdict] = {}
        self.asked: list[JudgeAttempt] = []
        #: Raised instead of answering, when set.
        self.fault: Exception | None = None

    def __call__(self, question: Question) -> Statement:
        """Answer, or raise the fault that was set."""
        if self.fault is not None:
            raise self.fault
        if isinstance(question, OpenSheet):
            return Opened(SHEET)
        if isinstance(question, JudgeAttempt):
            self.asked.append(question)
            right = Verdict(Outcome.RIGHT, "It holds.", "1.50 g, 3 figures")
            return Judged(self.verdicts.get(question.step, right))
        return Sealed("5ea1")


class Browser:
    """Does to a widget what the browser's side of it does."""

    def type(self, box: Widget, text: str) -> None:
        """Type a text in place of what stands in a box."""
        box.set_state({"value": text})

    def tick(self, box: Widget) -> None:
        """Tick a check box."""
        box.set_state({"value": True})

    def choose(self, chooser: Widget, index: int) -> None:
        """Choose from a list or among radio buttons: the browser sends an index."""
        chooser.set_state({"index": index})

    def click(self, button: Widget) -> None:
        """Press a button."""
        self._send(button, {"event": "click"})

    def enter(self, box: Widget) -> None:
        """Press Enter in a text box."""
        self._send(box, {"event": "submit"})

    def _send(self, widget: Widget, content: dict[str, object]) -> None:
        data = {"method": "custom", "content": content}
        # What the comm calls when a message comes in; there is no public way.
        widget._handle_msg({"content": {"data": data}, "buffers": []})  # noqa: SLF001
