"""
Everything that Python can list in a running kernel, written to a file.

It runs inside the kernel, so it is made of the standard library alone: what it
finds loaded was not loaded by itself. Out of its reach are the buffers that C code
keeps for itself, as no Python code lists them either.
"""

from __future__ import annotations

import gc
import io
import json
import os
import sys
import weakref
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

#: Larger whole numbers are written in hexadecimal, as Python refuses longer ones [bit].
_DECIMAL_BITS = 512

#: Jupyter asks it how busy the machine is. Its seconds go on from run to run, and meet
#: a value of the lab sooner or later.
_CLOCK = "psutil."


class Heap:
    """
    All objects that can be reached, sorted by what they could tell.

    Parameters
    ----------
    words : set of str
        Objects with one of these among their parts are kept as groups.
    """

    def __init__(self, words: set[str]) -> None:
        self._words = words
        #: Every text, and every string of bytes read as Latin-1.
        self.texts: set[str] = set()
        #: Every number as it is written, truth values left out.
        self.numbers: set[str] = set()
        #: The texts that one object holds, in alphabetical order.
        self.groups: set[tuple[str, ...]] = set()
        #: The full name of every class that has an instance.
        self.kinds: set[str] = set()

    def walk(self, roots: Iterable[object]) -> None:
        """
        Take everything that can be reached, but for this object itself.

        Parameters
        ----------
        roots : iterable of object
            Where to start.
        """
        waiting = list(roots)
        own = (self, vars(self), *vars(self).values(), waiting)
        seen = {id(each) for each in own}
        seen.add(id(seen))
        while waiting:
            thing = waiting.pop()
            if id(thing) in seen or type(thing) in weakref.ProxyTypes:
                continue
            seen.add(id(thing))
            if f"{type(thing).__module__}".startswith(_CLOCK):
                continue
            self._take(thing)
            parts = _find_parts(thing)
            self._take_group(parts)
            waiting += parts

    def _take(self, thing: object) -> None:
        kind = type(thing)
        self.kinds.add(f"{kind.__module__}.{kind.__qualname__}")
        match thing:
            case bool():
                pass
            case str():
                self.texts.add(thing)
            case bytes() | bytearray() | memoryview():
                self.texts.add(bytes(thing).decode("latin-1"))
            case int():
                is_short = thing.bit_length() <= _DECIMAL_BITS
                self.numbers.add(str(int(thing)) if is_short else f"{thing:x}")
            case float() | complex():
                self.numbers.add(repr(thing))
            case Decimal() | Fraction():
                self.numbers.add(str(thing))

    def _take_group(self, parts: list[object]) -> None:
        texts = {part for part in parts if type(part) is str}
        if not texts.isdisjoint(self._words):
            self.groups.add(tuple(sorted(texts)))


def _find_parts(thing: object) -> list[object]:
    """Return what an object holds, also where the garbage collector looks past it."""
    parts: list[object] = list(gc.get_referents(thing))
    if isinstance(thing, io.BytesIO | io.StringIO) and not thing.closed:
        parts.append(thing.getvalue())
    names = getattr(type(thing), "__struct_fields__", ())
    if isinstance(names, tuple):
        parts += [getattr(thing, name, None) for name in names]
    return parts


def list_kernel(to: str, sheet: str) -> None:
    """
    Write down what stands in this process.

    Parameters
    ----------
    to : str
        The file to write, JSON.
    sheet : str
        The student's sheet, JSON: of its options it matters what stands beside them.
    """
    # Everything that is asked here was loaded by the notebook, or is not there.
    modules = sorted(sys.modules)
    widgets = sys.modules.get("ipywidgets")
    traits = widgets.Widget.get_manager_state() if widgets else {}
    frames = list(sys._current_frames().values())  # noqa: SLF001  the one way to them
    heap = Heap(_read_options(sheet))
    heap.walk([*gc.get_objects(), *frames, *sys.modules.values()])
    found = {
        "modules": modules,
        "environ": dict(os.environ),
        "traits": traits,
        "texts": sorted(heap.texts),
        "numbers": sorted(heap.numbers),
        "groups": sorted(heap.groups),
        "kinds": sorted(heap.kinds),
    }
    Path(to).write_text(json.dumps(found), encoding="ascii")


def _read_options(sheet: str) -> set[str]:
    """Return the id of everything that can be ticked."""
    read = json.loads(Path(sheet).read_text(encoding="utf-8"))
    steps = [*read["prelab"], *read["postlab"]]
    return {each["id"] for step in steps for each in step.get("options", ())}
