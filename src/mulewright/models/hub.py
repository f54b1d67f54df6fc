"""When does a hub turn on its shaft? The torque that set screws on a round shaft carry."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, positive
from mulewright.models.formula import formula


@formula("friction * force * diameter / 2")
def set_screw_torque(friction: ArrayLike, force: ArrayLike, diameter: ArrayLike) -> NDArray[np.float64]:
    """Torque at which a hub that is held by set screws alone slips on a round shaft.

    Parameters
    ----------
    friction : array_like
        Between screw and shaft, force around the shaft over force on it; >= 0. [1]
    force : array_like
        With which the screws press on the shaft, all together; >= 0. [N]
    diameter : array_like
        Of the shaft; > 0. [m]

    Returns
    -------
    torque : ndarray
        With a flat, a key or a pin it is far higher. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    around = not_negative(friction, "friction") * not_negative(force, "force", "N")
    return np.asarray(around * positive(diameter, "diameter", "m") / 2)
