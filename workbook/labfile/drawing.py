"""
Which drawings a lab has, and what each says in words.

They are made from SMILES when a lab is built, and lie in its folder as SVG. Here is
all that can be known of them without drawing, so that notebooks can show them, and a
drawing can be held against the file.
"""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from workbook.matter.equation import write

if TYPE_CHECKING:
    from workbook.labfile.half import PublicHalf
    from workbook.matter.equation import Equation, Term

#: Raised when drawings of the same structures come out otherwise.
_STYLE = 2

#: Where a drawing keeps what it was made from.
MARK = "data-made-from"

_MARKED = re.compile(rf'{MARK}="([0-9a-f]{{64}})"')


@dataclass(frozen=True, slots=True)
class Shape:
    """One species of a drawing."""

    coefficient: int
    name: str
    formula: str
    #: Empty where the formula is written instead.
    smiles: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """A scheme, or a structure by itself: then nothing stands on its right."""

    #: Its name in the lab's folder.
    file: str
    title: str
    left: tuple[Shape, ...]
    right: tuple[Shape, ...] = ()
    is_reversible: bool = False

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """Every species, those on the left first."""
        return self.left + self.right

    @property
    def words(self) -> str:
        """What a screen reader says in its place."""
        drawn = (each for each in self.shapes if each.smiles)
        listed = "; ".join(f"{each.name}, SMILES {each.smiles}" for each in drawn)
        return f"{self.title}. Structures: {listed}."

    @property
    def mark(self) -> str:
        """What the drawing is made from, in 64 hexadecimal digits."""
        content = json.dumps([_STYLE, asdict(self)], sort_keys=True)
        return hashlib.sha256(content.encode()).hexdigest()

    def is_of(self, content: bytes) -> bool:
        """
        Tell whether a file holds this drawing.

        Parameters
        ----------
        content : bytes
            Of the file.

        Returns
        -------
        bool
            False for one that was made from other structures, names or coefficients.
        """
        found = _MARKED.search(content.decode("utf-8", "replace"))
        return found is not None and found[1] == self.mark


def list_schemes(public: PublicHalf) -> tuple[Drawing, ...]:
    """
    Return the schemes of a lab.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    tuple of Drawing
        One for each equation of which a species has its SMILES, the lab's own first;
        then those that other variants have in place of one.
    """
    found: dict[object, Drawing] = {}
    for variant, way in public.ways.items():
        for name, equation in way.equations.items():
            scheme = _scheme(way, name, equation, variant)
            if any(shape.smiles for shape in scheme.shapes):
                found.setdefault((name, scheme.shapes), scheme)
    return tuple(found.values())


def list_structures(public: PublicHalf) -> tuple[Drawing, ...]:
    """
    Return the structures that stand in no scheme.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    tuple of Drawing
        In the order of the lab file.
    """
    found: dict[Shape, Drawing] = {}
    for variant, way in public.ways.items():
        drawn = {key for equation in way.equations.values() for key in equation.species}
        for key, species in way.species.items():
            if species.smiles and key not in drawn:
                shape = Shape(1, species.name, species.formula or "", species.smiles)
                file = _name_file("structure", key, variant)
                title = f"Structure of {species.name}"
                found.setdefault(shape, Drawing(file, title, left=(shape,)))
    return tuple(found.values())


def list_drawings(public: PublicHalf) -> tuple[Drawing, ...]:
    """
    Return every drawing of a lab.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    tuple of Drawing
        Schemes first.
    """
    return list_schemes(public) + list_structures(public)


def _name_file(*parts: str) -> str:
    return f"{'-'.join(filter(None, parts))}.svg"


def _scheme(public: PublicHalf, name: str, equation: Equation, variant: str) -> Drawing:
    names = {key: species.name for key, species in public.species.items()}
    return Drawing(
        file=_name_file("scheme", name, variant),
        title=f"Scheme of {write(equation, names)}",
        left=tuple(_shape(public, term) for term in equation.left),
        right=tuple(_shape(public, term) for term in equation.right),
        is_reversible=equation.reversible,
    )


def _shape(public: PublicHalf, term: Term) -> Shape:
    species = public.species[term.species]
    return Shape(
        coefficient=term.coefficient or 1,
        name=species.name,
        formula=species.formula or "",
        smiles=species.smiles or "",
    )
