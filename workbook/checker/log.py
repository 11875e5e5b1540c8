"""
What a service writes of itself: one object of JSON a line, on the error stream.

No line holds an answer, a value, a token or an address with its password. So of an
exception it tells the kind and the place, and never the sentence.
"""

from __future__ import annotations

import logging
import sys
import traceback
from pathlib import Path

import structlog

#: How many places of an exception are told, the innermost last [-].
_PLACES = 4

_STAMPS: tuple[structlog.typing.Processor, ...] = (
    structlog.processors.add_log_level,
    structlog.processors.TimeStamper(fmt="iso", utc=True, key="at"),
)


def configure_log() -> None:
    """Send everything that the service and its server log to the error stream."""
    structlog.configure(
        processors=[*_STAMPS, structlog.processors.JSONRenderer(sort_keys=True)],
        logger_factory=structlog.WriteLoggerFactory(sys.stderr),
        cache_logger_on_first_use=True,
    )
    form = structlog.stdlib.ProcessorFormatter(
        foreign_pre_chain=_STAMPS,
        processors=[
            structlog.stdlib.ProcessorFormatter.remove_processors_meta,
            _leave_sentence,
            structlog.processors.JSONRenderer(sort_keys=True),
        ],
    )
    handler = logging.StreamHandler()
    handler.setFormatter(form)
    root = logging.getLogger()
    root.handlers = [handler]
    root.setLevel(logging.WARNING)


def tell(event: str, **fields: str | float) -> None:
    """
    Log that something happened.

    Parameters
    ----------
    event : str
        What, in a few words that are always the same.
    fields : str or int or float
        What else there is to tell, a unit in its name; nothing that a student typed
        [-].
    """
    structlog.get_logger().info(event, **fields)


def tell_fault(error: BaseException) -> None:
    """
    Log that something went wrong, without the sentence of the error.

    Parameters
    ----------
    error : BaseException
        Its sentence may quote an answer or a relation.
    """
    cause = error.__cause__ or getattr(error, "orig", None)
    structlog.get_logger().warning(
        "fault",
        error=type(error).__name__,
        cause=type(cause).__name__ if cause else "",
        places=list_places(error),
    )


def list_places(error: BaseException) -> list[str]:
    """
    Return where an exception came from.

    Parameters
    ----------
    error : BaseException
        As it was caught.

    Returns
    -------
    list of str
        ``"judge.py:120 judge"``, the innermost last.
    """
    frames = traceback.extract_tb(error.__traceback__)[-_PLACES:]
    return [f"{Path(each.filename).name}:{each.lineno} {each.name}" for each in frames]


def _leave_sentence(
    _: object, __: str, event: structlog.typing.EventDict
) -> structlog.typing.EventDict:
    """Leave of a library's exception only its kind and its place."""
    found = event.pop("exc_info", None)
    if isinstance(found, tuple) and isinstance(found[1], BaseException):
        event["error"] = type(found[1]).__name__
        event["places"] = list_places(found[1])
    return event
