"""
Many hands for one course: processes of this machine, or the workers of a Dask cluster.

Work on a course is cut into batches, and each batch is done by the same function that
does it all here, so the result is the same wherever that happens. A worker reads the
course by itself, and refuses where it finds another course than the one that sent it.
"""

from __future__ import annotations

import hashlib
import math
import multiprocessing
import os
from collections import deque
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from importlib import import_module
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from workbook.errors import TaskError
from workbook.labfile.course import read_course
from workbook.labfile.reader import LAB_FILE
from workbook.solver.source import KEY_FILE, CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence
    from concurrent.futures import Executor, Future

    from workbook.judge.case import Case

T = TypeVar("T")

#: Sheets that are worked on at once: enough that drawing their values together pays,
#: and few enough that all workers end at about the same time [-].
BATCH = 100

#: Sheets for which a further process is worth its start [-].
_WORTH_A_PROCESS = 150

#: Batches given out at a time for each who works: nobody waits for work, and no more
#: results wait to be taken than these [-].
_AHEAD = 4

#: Workers that a cluster is taken to have at least [-].
_FEWEST = 8


@dataclass(frozen=True, slots=True)
class Crew:
    """Who works."""

    #: Processes on this machine [-]; None for as many as there are cores.
    cores: int | None = None
    #: The address of a Dask cluster, such as ``tcp://10.0.0.5:8786``.
    cluster: str | None = None


#: Every core of this machine.
ALL_CORES = Crew()


def work_in_batches(
    crew: Crew,
    workers: int,
    work: Callable[..., list[T]],
    batches: Iterable[tuple[object, ...]],
) -> Iterator[T]:
    """
    Yield what comes of many batches, in their order.

    Parameters
    ----------
    crew : Crew
        Who works.
    workers : int
        Processes of this machine [-].
    work : callable
        A function of a module, which other processes can import.
    batches : iterable of tuple
        The arguments of each call; they are taken when somebody can work on them.

    Yields
    ------
    object
        Each of the results of each batch.

    Raises
    ------
    TaskError
        If there is no such cluster, or a worker ends.
    """
    out: deque[Future[list[T]]] = deque()
    try:
        with _open(crew, workers) as (executor, hands):
            for batch in batches:
                out.append(executor.submit(work, *batch))
                if len(out) >= _AHEAD * hands:
                    yield from out.popleft().result()
            while out:
                yield from out.popleft().result()
    except BrokenExecutor as error:
        msg = (
            "A process ended before it had done its work, perhaps for want of memory. "
            "Try fewer with --cores."
        )
        raise TaskError(msg) from error


def cut(things: Iterable[T]) -> Iterator[list[T]]:
    """
    Cut any number of things into batches.

    Parameters
    ----------
    things : iterable of object
        They are taken when a batch is asked for.

    Yields
    ------
    list of object
        At most `BATCH` of them, in their order; never none.
    """
    left = iter(things)
    while some := list(islice(left, BATCH)):
        yield some


def cases_in_turn(
    source: CourseSource, lab: str, students: Sequence[str]
) -> Iterator[Case]:
    """
    Yield the cases of any number of students, a batch drawn at a time.

    Parameters
    ----------
    source : CourseSource
        The course with its key.
    lab : str
        The lab's name.
    students : sequence of str
        Their ids.

    Yields
    ------
    Case
        In the order of *students*.

    Raises
    ------
    CheckerRefusedError
        If there is no such lab here.
    DrawError
        If a student gets no fair values.
    """
    for some in cut(students):
        yield from source.cases(lab, some)


@lru_cache(maxsize=2)
def read_stamped(course: str, stamp: str) -> CourseSource:
    """
    Return a course in a process of its own, which reads it once.

    Parameters
    ----------
    course : str
        The course file.
    stamp : str
        What `stamp_course` gave where the work was started.

    Returns
    -------
    CourseSource
        With its key.

    Raises
    ------
    TaskError
        If another course stands there.
    """
    if stamp_course(Path(course)) != stamp:
        msg = f"A worker finds another course at {course}. Share one folder with all."
        raise TaskError(msg)
    return CourseSource(Path(course))


def stamp_course(course: Path) -> str:
    """
    Return a fingerprint of everything on which the work on a course rests.

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


def count_workers(crew: Crew, number: int) -> int:
    """
    Return how many processes of this machine some work is worth.

    Parameters
    ----------
    crew : Crew
        Who works.
    number : int
        Sheets that are worked on [-].

    Returns
    -------
    int
        At least one [-].
    """
    if crew.cores is not None:
        return max(1, min(crew.cores, math.ceil(number / BATCH)))
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else None
    most = cores or os.cpu_count() or 1
    return max(1, min(most, number // _WORTH_A_PROCESS))


@contextmanager
def _open(crew: Crew, workers: int) -> Iterator[tuple[Executor, int]]:
    """Open what works, and tell how many work at a time."""
    if crew.cluster is None:
        # A fresh interpreter each: a copy of this one may hold locks of its threads.
        context = multiprocessing.get_context("spawn")
        with ProcessPoolExecutor(workers, mp_context=context) as pool:
            yield pool, workers
        return
    with _connect(crew.cluster) as opened:
        yield opened


@contextmanager
def _connect(address: str) -> Iterator[tuple[Executor, int]]:
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
        # A cluster may have nobody yet, and take on workers as it finds work.
        yield executor, max(sum(client.nthreads().values()), _FEWEST)
