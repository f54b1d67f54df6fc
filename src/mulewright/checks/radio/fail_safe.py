"""What does the machine do when the link is lost, and has anybody tried it?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    Outcome,
    Severity,
    above,
    check,
    flagged,
    lacking,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.fail_safe import LostLinkFacts, ReceiverFacts
from mulewright.facts.holding import RaisingFacts

FAIL_SAFE_LEVERS = ("receiver.part", "receiver.fail_safe.*", "second_receiver.fail_safe.*")


@check(
    "R01",
    on=ReceiverFacts,
    severity=Severity.STOP,
    why="What a machine does without its link is not known until somebody switched the transmitter off.",
    seen="Nothing shows until the link is lost",
    fixes=(
        "With the wheels up, switch the transmitter off while each function runs, and note the day.",
        "Do it again after every bind and every plug that was moved.",
    ),
    levers=("receiver.fail_safe.tested", "receiver.rebound_since_test"),
    examples=(
        Example("tray-cart", Outcome.PASS, "receiver"),
        Example("tray-cart", Outcome.TRIP, "receiver", ("receiver.fail_safe.tested=?",)),
        Example("tray-cart", Outcome.TRIP, "receiver", ("receiver.rebound_since_test=true",)),
        Example("tray-cart", Outcome.TRIP, "receiver", ("receiver.fail_safe.others=?",)),
    ),
)
def fail_safe_never_tried(receiver: ReceiverFacts, limits: Limits) -> Answer:
    """Whether the fail-safe of a receiver that moves motors is noted, was tried, and was not touched since.

    Worked out: the day of the test, a note of a later bind or move of a plug, and a setting for each socket
    that moves a motor.

    Not covered: whether what was seen in the test is what was wanted.

    Source: common practice, no source.
    """
    return lacking(
        receiver.tried, Severity.STOP, "About its fail-safe: {because}.",
        because=receiver.trial[1],
    )  # fmt: skip


@check(
    "R02",
    on=LostLinkFacts,
    severity=Severity.BLOCK,
    why="With the link lost it goes on with the last command, and nobody can stop it from afar.",
    seen="Keeps driving after the transmitter is switched off",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Store neutral, or no pulses, as the fail-safe of these sockets, where the receiver can.",
        "Move its plug to a socket that can store a preset, and its control with it.",
        "Take a receiver that stores a preset for every socket.",
    ),
    levers=FAIL_SAFE_LEVERS,
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "controller.front_left", (), Severity.BLOCK),
        Example("aisle-carrier", Outcome.TRIP, "controller.pump", (), Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "controller.lift"),
        Example(
            "aisle-carrier",
            Outcome.PASS,
            "controller.front_left",
            ("receiver.part=rx8", "receiver.fail_safe.others=neutral"),
        ),
        Example("tray-cart", Outcome.PASS, "controller.left", ("receiver.fail_safe.others=no pulses",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("receiver.fail_safe.others=?",)),
    ),
)
def runs_on_without_a_link(lost: LostLinkFacts, limits: Limits) -> Answer:
    """Whether any socket that moves a motor goes on with its last pulse when the link is lost.

    Worked out: the controller's plug is followed back, through boxes, to every socket that moves it. A
    socket for which the receiver can store no preset holds, whatever is set. It is a BLOCK for the drive
    and a STOP otherwise.

    Not covered: a receiver that takes long to notice, or that restarts.

    Source: common practice, no source.
    """
    level = Severity.BLOCK if lost.drives else Severity.STOP
    return flagged(
        lost.runs_on,
        level,
        "Sockets that go on with the last command when the link is lost: {keeping}.",
        keeping=lost.keeping,
    )


@check(
    "R03",
    on=ReceiverFacts,
    severity=Severity.STOP,
    why="A test with one function looks good, and the others keep going.",
    seen="Transmitter off: one function stops, and the others go on",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Take a receiver that stores a preset for every socket.",
        "Move the plugs so that only sockets with a preset move motors.",
    ),
    levers=("receiver.part", "controller.*.signal"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "receiver"),
        Example("aisle-carrier", Outcome.PASS, "receiver", ("receiver.part=rx8",)),
        Example("tray-cart", Outcome.PASS, "receiver", ("receiver.protects=[1, 2]",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "receiver", ("receiver.protects=?",)),
    ),
)
def protects_some_sockets_only(receiver: ReceiverFacts, limits: Limits) -> Answer:
    """Whether motors hang on sockets for which the receiver can store no preset.

    Worked out: every socket that moves a motor, through boxes too, against the list of those that take a
    preset.

    Not covered: servos; for most of them holding is the better fail-safe.

    Source: the receiver's sheet.
    """
    return flagged(
        receiver.unprotected,
        Severity.STOP,
        "Sockets that move motors and can store no preset: {bare}.",
        bare=receiver.bare,
    )


@check(
    "R05",
    on=RaisingFacts,
    severity=Severity.WARN,
    why="The fail-safe lets go of a load that does not stay up by itself.",
    seen="Arm or lift comes down when the transmitter is switched off",
    symptom=Symptom.FALLS,
    fixes=(
        "Hold it mechanically: a ratchet, a gear that its load cannot turn, a counterbalance.",
        "Clear the space under it before the transmitter is switched off.",
    ),
    levers=("mechanism.*.ratchet", "mechanism.*.counterbalance", "mechanism.*.counter_force"),
    limits=Limit(1, "ratio", mark="judgement"),
    follows=("M07",),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift"),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.ratchet=true",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("receiver.fail_safe.3=hold",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("receiver.protects=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.load", "0.1 kg", "3 kg"),),
)
def comes_down_without_a_link(raising: RaisingFacts, limits: Limits) -> Answer:
    """Whether a load that does not stay up by itself is let go when the link is lost.

    Worked out: the speed at which it moves by itself at neutral, over the speed that passes for standing
    still, where the fail-safe puts its controller to neutral.

    Not covered: a fail-safe that holds: then it is driven on, which is another finding.

    Source: common practice, no source; what passes for standing still is a judgement.
    """
    return together(
        above(
            raising.measured.creep_share,
            limits,
            "Let go, it moves by itself at {creep} ({still} passes for standing still); "
            "when the link is lost, {reaction}.",
            creep=raising.measured.creep,
            still=raising.measured.still,
            reaction=raising.lost_link.reaction,
        ),
        flagged(raising.lost_link.lets_go, Severity.WARN, ""),
    )
