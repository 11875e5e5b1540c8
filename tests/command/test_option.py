"""What ``workbook mark`` may be told."""

from __future__ import annotations

import click

from workbook.command.option import MarkOptions, add_mark_options


def test_every_option_has_a_name_that_the_command_knows() -> None:
    command = click.command(add_mark_options(lambda **_: None))
    names = {each.name for each in command.params}
    assert names == {"course", *MarkOptions.__annotations__}


def test_every_option_says_what_it_does() -> None:
    command = click.command(add_mark_options(lambda **_: None))
    options = [each for each in command.params if isinstance(each, click.Option)]
    assert [each.name for each in options if not each.help] == []
