"""Templates of the pages that are written for people: whatever goes in is escaped."""

from __future__ import annotations

from jinja2 import Environment, PackageLoader, StrictUndefined


def open_templates(package: str) -> Environment:
    """
    Return the page templates that lie in a package.

    Parameters
    ----------
    package : str
        Its dotted name.

    Returns
    -------
    Environment
        Every text is escaped as HTML, and a name that a template does not get is an
        error.
    """
    return Environment(
        loader=PackageLoader(package, "."),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
