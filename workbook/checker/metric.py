"""
The figures of a service, for Prometheus: how many questions, how long, what became.

They hold no student's id. Several processes write theirs to files in one folder, which
the environment variable PROMETHEUS_MULTIPROC_DIR names, and each tells all of them.
"""

from __future__ import annotations

import os

from prometheus_client import (
    CONTENT_TYPE_LATEST,
    REGISTRY,
    CollectorRegistry,
    Counter,
    Gauge,
    Histogram,
    generate_latest,
)
from prometheus_client.multiprocess import MultiProcessCollector

#: Where several processes put their figures; the library reads it when it is imported.
FOLDER_VARIABLE = "PROMETHEUS_MULTIPROC_DIR"

#: The form of the page.
CONTENT_TYPE = CONTENT_TYPE_LATEST

_QUESTIONS = Counter(
    "workbook_questions", "Questions that were answered.", ("kind", "result")
)
_SECONDS = Histogram(
    "workbook_question_seconds",
    "How long a question took, waiting included.",
    ("kind",),
    buckets=(0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 20),
)
_OPEN = Gauge(
    "workbook_questions_open",
    "Questions that wait or are being answered.",
    multiprocess_mode="livesum",
)


def count_open(change: int) -> None:
    """
    Count that a question came, or that it was answered.

    Parameters
    ----------
    change : int
        1 or -1 [-].
    """
    _OPEN.inc(change)


def count_answer(kind: str, result: str, took_s: float) -> None:
    """
    Count a question that was answered.

    Parameters
    ----------
    kind : str
        Of the question.
    result : str
        Of the statement; of a refusal, why.
    took_s : float
        From its coming to its answer [s].
    """
    _QUESTIONS.labels(kind, result).inc()
    _SECONDS.labels(kind).observe(took_s)


def print_metrics() -> bytes:
    """
    Return the figures of all processes.

    Returns
    -------
    bytes
        The text form of Prometheus.
    """
    if FOLDER_VARIABLE not in os.environ:
        return generate_latest(REGISTRY)
    registry = CollectorRegistry()
    MultiProcessCollector(registry)  # type: ignore[no-untyped-call] # of the library
    return generate_latest(registry)
