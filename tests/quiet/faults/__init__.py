"""What can be done wrong: the faults that are put into every quiet design in which they can be made."""

from __future__ import annotations

from tests.quiet.faults.handover import HANDOVER
from tests.quiet.faults.mechanism import MECHANISM
from tests.quiet.faults.power import POWER
from tests.quiet.faults.radio import RADIO
from tests.quiet.faults.safety import SAFETY
from tests.quiet.faults.signal import SIGNAL

FAULTS = (*SIGNAL, *POWER, *MECHANISM, *RADIO, *SAFETY, *HANDOVER)
