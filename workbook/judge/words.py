"""
The sentences that a student reads: they name the error, and never a number of the key.

Each is a constant or is made of labels and units that the sheet already shows. A card
puts the word of the outcome before it ("Agrees."), so no sentence says that again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from workbook.judge.case import Case

RIGHT = "It follows from your own values."
RIGHT_READING = "That is what the instrument shows."
RIGHT_CHOICE = "Nothing is left out, and nothing stands where it does not belong."
RIGHT_SINGLE = "That is the one."
RIGHT_LIMITING = "That is what runs out first."
WRONG = (
    "Your earlier values lead to something else. Look at the relation, and at the unit "
    "of each factor."
)
WRONG_DISPLAY = "The display shows something else. Copy it digit by digit."
WRONG_UPWARDS = (
    "The scale shows something else. Find what one division is worth, and read the "
    "lowest point of the meniscus."
)
WRONG_DOWNWARDS = (
    "The scale shows something else. Its numbers grow downwards: find what one "
    "division is worth, count on from the number above, and read the lowest point of "
    "the meniscus."
)
WRONG_COLUMN = (
    "The thermometer shows something else. Find what one division is worth, and read "
    "where the column ends."
)
WRONG_RING = "It holds one volume only: look at what is printed on it."
WRONG_CHOICE = "Something is ticked that does not belong, or is left out."
WRONG_SINGLE = "Read the question and the table of substances again."
WRONG_LIMITING = (
    "Your own amounts say otherwise. Set each amount against its own coefficient in "
    "the equation."
)
FEW_DISPLAYED = (
    "The value is right, but the display shows more digits than you wrote: copy it "
    "whole."
)
WRONG_RANGE = (
    "These are not your two readings. Write where it began and where it was over, the "
    "lower one first."
)
FEW_DIGITS = (
    "The value is right, but the instrument shows more digits than you wrote: a scale "
    "is read one digit further than its lines."
)
FEW_PRINTED = (
    "The value is right, but it is known to more digits than you wrote: to the last "
    "digit of the limit of error that is printed on it."
)
MANY_DIGITS = (
    "The value is right, but you wrote more digits than the instrument can support."
)
NOTED = (
    "It is yours, and what comes after follows from it. It is fixed now: only "
    "a reason changes it."
)
FEW_OWN_DIGITS = (
    "The instrument shows more digits than you wrote. Write each of them, to {step} "
    "{unit}, a zero at the end too."
)
MANY_OWN_DIGITS = (
    "You wrote more digits than the instrument shows, which is to {step} {unit}."
)
OUTSIDE = (
    "On any bench this lies between {low} and {high} {unit}. Look at the digits and "
    "the unit. If it is what your instrument shows, tell your instructor."
)
NO_REASON = (
    "Write why the reading changes. The earlier one stays in your record, beside the "
    "reason."
)
EARLY = (
    "This follows from a reading of your own that is not noted yet. Note your own "
    "readings first, then check this again. Still open: {names}."
)
VALUE_RIGHT = "The value is right."
FEW_FIGURES = "But your data support more figures than you wrote."
MANY_FIGURES = "But you wrote more figures than your data can support."
COARSE = (
    "It can't be told from these: write about as many as your data have. This was not "
    "counted as a try."
)
BLANK = "Tick what holds, then check."
AGAIN = "Look again at: {names}."
AGAIN_PARTLY = "The rest holds. Look again at: {names}."
UNFILLED = "Fill in a cell, then check."
TABLE_REST = "The rest holds."
TABLE_AGAIN = "Look again at: {names}."
TABLE_EMPTY = "Still empty: {names}."
TABLE_FOLLOWS = (
    "By your own earlier values the table is right, and earns the step. One of those "
    "values still needs another look."
)
TABLE_FIGURES = (
    "The values are right; there are too many figures, or too few, in: {names}."
)
UNPLACED = "Place a card, then check."
RIGHT_ORDER = "It can be done in this order."
ORDER_BREACH = (
    "\N{LEFT DOUBLE QUOTATION MARK}{first}\N{RIGHT DOUBLE QUOTATION MARK} and "
    "\N{LEFT DOUBLE QUOTATION MARK}{second}\N{RIGHT DOUBLE QUOTATION MARK} can't stand "
    "this way round. Think of what goes wrong between them."
)
ORDER_MISSING = "What is placed can stand in this order. Cards are still missing."
CARD_UNBALANCED = (
    "\N{LEFT DOUBLE QUOTATION MARK}{card}\N{RIGHT DOUBLE QUOTATION MARK} does "
    "not keep its atoms or its charge, so it can't happen. Look at its balance."
)
CARD_FOREIGN = (
    "A card does not belong. Ask of each whether it can happen in this "
    "medium, and in one stage."
)
UNWRITTEN = "Write your text, then keep it."
COMMITTED = (
    "Your prediction is kept, and earns the step whatever comes out. It is not changed "
    "any more: compare it with what you see."
)
KEPT = (
    "A person will read it as it stands, and mark it. You can go on changing it; the "
    "latest text that you keep is read."
)
UNIT_LEFT_OUT = "The unit is missing; it was read as {unit}. Write it with the number."
FOLLOWS = (
    "By your own earlier values it is right, and earns the step. The {fault} still "
    "needs another look."
)
CHAIN_EMPTY = "The chain is empty: place at least one factor."
CHAIN_LONG = "The chain has more than {limit} factors. Take out what cancels."
CHAIN_UNKNOWN = "A factor of the chain is not among those offered for this step."
CHAIN_UPSIDE_DOWN = "A factor is upside down: {label}."
CHAIN_TWICE = "A factor stands in the chain more than once: {label}."
CHAIN_FOREIGN = "A factor belongs to another step or another substance: {label}."
CHAIN_MISSING = "A factor is still missing: the units do not come out as asked."
CHAIN_OFF = (
    "The chain does not lead from the start to what is asked. Watch which units and "
    "substances are left."
)
LINES_MISSING = "Show the working: write at least one line of algebra."
LINES_MANY = "These are more than {limit} lines. Leave only those that lead on."
LINES_IDLE = (
    "Show the working: no line says yet how one mass is worked out from others."
)
LINE_UNREAD = "Line {line} can't be read. {reason}"
LINE_NO_EQUALITY = (
    "Line {line} is not an equation: write what it is equal to, with one ="
)
LINE_UNKNOWN = "Line {line} uses {name!r}, which is no letter of this pad.{hint}"
LINE_STEEP = (
    "Line {line} multiplies or divides letters more often than masses ever are. Write "
    "it in smaller parts."
)
LINE_FIRST_STOPS = "Line {line} does not follow from what is known."
LINE_STOPS = "Line {line} does not follow from the lines above it."
REST_FOLLOWS = "What comes after it follows from it."
REST_STOPS = "Nor does line {line} follow from there."
RESULT_NOT = "The working holds; the result is not where it leads. Work it out again."
RESULT_ALL_THE_SAME = "The result is right all the same."
RESULT_FOLLOWS = "The result follows from your earlier values all the same."
OTHER_KIND = "This answer is of another kind than the step asks for."


def follows(case: Case, fault: str) -> str:
    """
    Return the sentence on a value that rests on an earlier one which is wrong.

    Parameters
    ----------
    case : Case
        For what the earlier value is called.
    fault : str
        The earlier quantity.

    Returns
    -------
    str
        With its label.
    """
    return FOLLOWS.format(fault=case.graph.lab.public.labels[fault].text)
