"""Do plugs and sockets go together: one plug to a socket, one source of pulses to a lead?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.sockets import SignalNetFacts, SocketFacts

SECOND_PLUG = ("controller.right.signal=receiver.2",)
ONE_Y_LEAD = (
    'y_lead.drive={ kind = "parallel", carries = "signal", signal = "receiver.2" }',
    "controller.left.signal=y_lead.drive",
    "controller.right.signal=y_lead.drive",
)


@check(
    "S08",
    on=SocketFacts,
    severity=Severity.BLOCK,
    why="Only one plug fits, so this plan cannot be built, and whoever builds it has to guess.",
    seen="One plug is left over, and its socket is taken",
    symptom=Symptom.STILL,
    fixes=(
        "Give one of the two devices a free channel.",
        "If both should do the same, join them with a Y-lead ([y_lead.NAME]).",
    ),
    levers=("controller.*.signal", "servo.*.signal", "y_lead.*.signal"),
    examples=(
        Example("tray-cart", Outcome.PASS, "receiver.2"),
        Example("tray-cart", Outcome.TRIP, "receiver.2", SECOND_PLUG, Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "receiver.2", ONE_Y_LEAD),
        Example("tray-cart", Outcome.CANNOT_TELL, "receiver.2", ("controller.right.signal=?",)),
        Example(
            "tray-cart", Outcome.TRIP, "receiver.1",
            ('regulator.rail={ kind = "switching", voltage = "6 V", current = "3 A", feeds = ["receiver.1"] }',),
        ),
    ),
)  # fmt: skip
def two_plugs_in_one_socket(socket: SocketFacts, limits: Limits) -> Answer:
    """The plugs that are said to sit in one socket of a receiver, a box or an in-line device, against one.

    Worked out: signal plugs of controllers, servos, boxes, Y-leads and in-line devices, and plugs of supplies
    that feed a receiver. A Y-lead and a tester take several. Until it is mended, everything else is worked out
    as if both plugs got the pulses of that socket.

    Not covered: sockets that are blocked by a plug beside them.

    Source: one plug to a socket.
    """
    return above(
        socket.plug_count,
        {Severity.BLOCK: 1.0},
        "{value} plugs, {names}; it takes {limit}.",
        names=socket.names,
    )


@check(
    "S26",
    on=SignalNetFacts,
    severity=Severity.BLOCK,
    why="Two outputs on one lead pull against each other, which jitters at best and kills an output at worst.",
    seen="Servo jitters while a tester and a receiver are both plugged in",
    symptom=Symptom.BY_ITSELF,
    fixes=("Pull one of the plugs, so that a single source of pulses is left.",),
    levers=("controller.*.signal", "servo.*.signal", "y_lead.*.signal"),
    examples=(
        Example("soft-fruit-gripper", Outcome.PASS, "signal.tester.bench"),
        Example(
            "soft-fruit-gripper", Outcome.TRIP, "signal.receiver.5", severity=Severity.BLOCK,
            variant="receiver-left-plugged",
        ),
        Example(
            "tray-cart", Outcome.TRIP, "signal.receiver.2",
            (*ONE_Y_LEAD, 'y_lead.drive.signal=["receiver.2", "receiver.3"]'), Severity.BLOCK,
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "signal.controller.left", ("controller.left.signal=?",)),
        Example("aisle-carrier", Outcome.PASS, "signal.mixer.drive.out1"),
    ),
)  # fmt: skip
def outputs_joined(net: SignalNetFacts, limits: Limits) -> Answer:
    """The sources of pulses that meet in one lead: receiver channels, testers, outputs of boxes, against one.

    Worked out: every plug is followed through Y-leads, both ways. What comes out of a box or an in-line device
    is a source of its own.

    Not covered: a source that is only plugged in for a moment, which is no better.

    Source: an output may not be driven from outside; common practice, no source.
    """
    return above(
        net.source_count,
        {Severity.BLOCK: 1.0},
        "{value} at once: {words}; {limit} is allowed.",
        words=net.in_words,
    )
