"""
Marking by many hands: on the cores of this machine, or on a Dask cluster by address.

The hand-ins are cut into batches, and each batch is marked by the same function that
marks them all here, so the marks are the same wherever that happens. A worker reads the
course by itself, and refuses where it finds another course than the one that sent it.
"""

from __future__ import annotations

import hashlib
import math
import multiprocessing
import os
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from importlib import import_module
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from workbook.errors import TaskError
from workbook.labfile.course import read_course
from workbook.labfile.reader import LAB_FILE
from workbook.marking.mark import mark_all
from workbook.solver.source import KEY_FILE, CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from concurrent.futures import Executor

    from workbook.marking.gather import Accepted
    from workbook.marking.override import Override
    from workbook.marking.result import SheetMark

#: Hand-ins that are marked at once: enough that drawing their values together pays, and
#: few enough that all workers end at about the same time [-].
_BATCH = 100

#: Hand-ins for which a further process is worth its start [-].
_WORTH_A_PROCESS = 150


@dataclass(frozen=True, slots=True)
class Crew:
    """Who marks."""

    #: Processes on this machine [-]; None for as many as there are cores.
    cores: int | None = None
    #: The address of a Dask cluster, such as ``tcp://10.0.0.5:8786``.
    cluster: str | None = None


#: Every core of this machine.
ALL_CORES = Crew()


def mark_by_crew(
    source: CourseSource,
    accepted: Sequence[Accepted],
    overrides: Sequence[Override] = (),
    crew: Crew = ALL_CORES,
) -> Iterator[SheetMark]:
    """
    Yield the marks of many hand-ins, whoever works them out.

    Parameters
    ----------
    source : CourseSource
        The course with its key; workers of a cluster must find its file, and what lies
        beside it, at the same place.
    accepted : sequence of Accepted
        In the order of the marks.
    overrides : sequence of Override
        What persons decided, in the order of deciding.
    crew : Crew
        Who marks.

    Yields
    ------
    SheetMark
        One for each hand-in, in their order.

    Raises
    ------
    TaskError
        If there is no such cluster, or a worker ends or finds another course.
    """
    path = source.course.path.resolve()
    workers = _count_workers(crew, len(accepted))
    if crew.cluster is None and workers == 1:
        yield from mark_all(source, accepted, overrides)
        return
    starts = range(0, len(accepted), _BATCH)
    batches = [_cut(accepted[at : at + _BATCH], overrides) for at in starts]
    stamp = stamp_course(path)
    with _open(crew, workers) as executor:
        futures = [
            executor.submit(mark_batch, str(path), stamp, batch, given)
            for batch, given in batches
        ]
        try:
            yield from chain.from_iterable(future.result() for future in futures)
        except BrokenExecutor as error:
            msg = (
                "A process ended before it had marked its hand-ins, perhaps for want "
                "of memory. Try fewer with --cores."
            )
            raise TaskError(msg) from error


def mark_batch(
    course: str,
    stamp: str,
    accepted: Sequence[Accepted],
    overrides: Sequence[Override],
) -> list[SheetMark]:
    """
    Return the marks of some hand-ins, in a process of their own.

    Parameters
    ----------
    course : str
        The course file.
    stamp : str
        What `stamp_course` gave where the marking was started.
    accepted : sequence of Accepted
        The hand-ins.
    overrides : sequence of Override
        What persons decided on them.

    Returns
    -------
    list of SheetMark
        In the order of the hand-ins.

    Raises
    ------
    TaskError
        If another course stands there.
    """
    return list(mark_all(_read_source(course, stamp), accepted, overrides))


@lru_cache(maxsize=2)
def _read_source(course: str, stamp: str) -> CourseSource:
    """Read a course once in each process."""
    if stamp_course(Path(course)) != stamp:
        msg = f"A worker finds another course at {course}. Share one folder with all."
        raise TaskError(msg)
    return CourseSource(Path(course))


def stamp_course(course: Path) -> str:
    """
    Return a fingerprint of everything on which the marks of a course rest.

    Parameters
    ----------
    course : Path
        The course file.

    Returns
    -------
    str
        SHA-256 of the course file, its roster, its key and its lab files, 64
        hexadecimal digits.

    Raises
    ------
    TaskError
        If one of them can't be read.
    """
    found = read_course(course)
    labs = [folder / LAB_FILE for folder in found.folders.values()]
    sums = hashlib.sha256()
    for path in (course, *_list_roster(found.roster), course.parent / KEY_FILE, *labs):
        try:
            sums.update(hashlib.sha256(path.read_bytes()).digest())
        except OSError as error:
            msg = f"{path} can't be read: {error.strerror}."
            raise TaskError(msg) from error
    return sums.hexdigest()


def _list_roster(path: Path) -> list[Path]:
    return sorted(path.glob("*.csv")) if path.is_dir() else [path]


def _count_workers(crew: Crew, number: int) -> int:
    if crew.cores is not None:
        return max(1, min(crew.cores, math.ceil(number / _BATCH)))
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else None
    most = cores or os.cpu_count() or 1
    return max(1, min(most, number // _WORTH_A_PROCESS))


def _cut(
    batch: Sequence[Accepted], overrides: Sequence[Override]
) -> tuple[Sequence[Accepted], list[Override]]:
    """Give a batch only the decisions that are about it."""
    sheets = {(a.hand_in.sheet.student, a.hand_in.sheet.lab) for a in batch}
    return batch, [each for each in overrides if (each.student, each.lab) in sheets]


@contextmanager
def _open(crew: Crew, workers: int) -> Iterator[Executor]:
    if crew.cluster is None:
        # A fresh interpreter each: a copy of this one may hold locks of its threads.
        context = multiprocessing.get_context("spawn")
        with ProcessPoolExecutor(workers, mp_context=context) as pool:
            yield pool
        return
    with _connect(crew.cluster) as executor:
        yield executor


@contextmanager
def _connect(address: str) -> Iterator[Executor]:
    try:
        distributed = import_module("distributed")
    except ImportError as error:
        msg = "A cluster needs the extra: pip install 'lab-workbook[cluster]'."
        raise TaskError(msg) from error
    try:
        client = distributed.Client(address, timeout="10s")
    except (OSError, ValueError) as error:
        msg = f"No Dask cluster answers at {address}: {error}."
        raise TaskError(msg) from error
    with client, client.get_executor() as executor:
        yield executor
