"""What every table of a lab or course file keeps to, and every step's table besides."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    ModelWrapValidatorHandler,
    ValidationError,
    model_validator,
)

from workbook.labfile.field import Identifier, Text
from workbook.labfile.finding import tell_known_keys


class Table(BaseModel):
    """A table of the file: frozen, and closed to keys that it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)

    @model_validator(mode="wrap")
    @classmethod
    def _know_every_key(
        cls, data: object, handler: ModelWrapValidatorHandler[Self]
    ) -> Self:
        try:
            return handler(data)
        except ValidationError as error:
            known = {field.alias or name for name, field in cls.model_fields.items()}
            raise tell_known_keys(error, known) from None


class Asking(Table):
    """The table of a step."""

    #: The question, in words.
    asks: Text
    #: Before the lab: the readings after it are shown only once this is right.
    gate: Annotated[bool, Field(strict=True)] = False


class Named(Asking):
    """The table of a step that asks for no quantity, and so has a name of its own."""

    name: Identifier
