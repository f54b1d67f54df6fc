"""Does a model keep its promises: its formula, arrays like a loop, nan in and nan out?"""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from mulewright.models.formula import sides

SCALES = (1.0, 0.97, 0.95)


def _times(value: Any, scale: Any) -> Any:
    return [one * scale for one in value] if isinstance(value, Sequence) else value * scale


def _unknown(value: Any) -> Any:
    return [np.nan, *value[1:]] if isinstance(value, Sequence) else np.nan


def assert_keeps_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any], fixed: Sequence[str] = ()
) -> None:
    """Call a model with numbers (or lists of numbers), also a little smaller, and with nan in each place.

    Parameters named in ``fixed`` are choices, not measured numbers: they stay as they are.
    """
    value = model(**arguments)
    assert value.dtype == np.float64
    np.testing.assert_allclose(*sides(model, arguments, value), rtol=1e-9, atol=1e-15)

    free = [name for name in arguments if name not in fixed]
    many = model(**arguments | {name: _times(arguments[name], np.array(SCALES)) for name in free})
    loop = [model(**arguments | {name: _times(arguments[name], scale) for name in free}) for scale in SCALES]
    np.testing.assert_allclose(many, np.stack(loop, axis=-1), rtol=1e-12, atol=1e-15)

    for name in free:
        assert np.isnan(model(**arguments | {name: _unknown(arguments[name])})).all(), name
