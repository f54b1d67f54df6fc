"""What a channel does when the link is lost: one of three words, or the pulse that it goes to."""

from typing import Annotated

from pydantic import AfterValidator, WithJsonSchema

from mulewright.errors import UnitError, closest
from mulewright.units.fields import Of

NEUTRAL, HOLD, SILENT = "neutral", "hold", "no pulses"
_WORDS = (NEUTRAL, HOLD, SILENT)
_PULSE = Of("pulse", least=0)


def _a_word_or_a_pulse(text: str) -> str:
    if text not in _WORDS:
        try:
            _PULSE.read(text)
        except UnitError as no:
            rule = f"{', '.join(_WORDS)}, or a pulse such as 1100 us"
            near = closest(text, _WORDS) or no.nearest
            raise UnitError("is not what a channel can do", rule=rule, found=text, nearest=near) from no
    return text


_FORM = {
    "anyOf": [{"enum": list(_WORDS)}, {"type": "string", "description": "a pulse such as 1100 us; or ?"}]
}
Reaction = Annotated[str, AfterValidator(_a_word_or_a_pulse), WithJsonSchema(_FORM)]
