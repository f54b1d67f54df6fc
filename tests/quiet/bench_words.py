"""What a person at the bench says who has a fault, and what truly is behind it: by the check that finds the fault.

Written from the faults that are put into the designs, and not from the way in which causes are ranked.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Told:
    """One fault as it is told, and its true cause."""

    words: str
    cause: str


TOLD = {
    "S01": Told("my motor is too slow even at full stick", "not-calibrated"),
    "S03": Told("the servo only goes half of the way it should", "range-small"),
    "S04": Told("servo is buzzing at rest", "past-stop"),
    "S05": Told("servo hot, nothing in the gripper", "past-stop"),
    "S06": Told("one wheel is going the wrong way", "lead-polarity"),
    "S07": Told("one wheel just stands still", "wrong-socket"),
    "S09": Told("one servo is dead", "wrong-socket"),
    "S10": Told("one motor does not move at all", "lead-out"),
    "S11": Told("keeps moving after I let go of the stick", "unsprung"),
    "S15": Told("a motor starts running when I switch on", "no-off-place"),
    "S16": Told("slow mode doesn't slow the arm", "rate-misses"),
    "S24": Told("drives too slow with the stick at full", "mix-halves"),
    "S28": Told("it creeps with the stick at neutral", "neutral-off"),
    "S30": Told("stick: nothing, nothing, then a jump", "expo-and-rate"),
    "S32": Told("straight forwards but pulls to one side", "ends-unequal"),
    "S34": Told("reverse works only on the second pull", "second-pull"),
    "S35": Told("motor at half power with the stick centred", "one-way"),
    "S43": Told("strafing pivots, turning strafes", "stick-plugs-exchanged"),
    "P01": Told("nothing works, the receiver has no light", "no-supply"),
    "P02": Told("a controller gets hot while idle", "bec-fight"),
    "P13": Told("receiver still lit after switching the main switch off", "second-source"),
    "P16": Told("thin signal wire gets hot", "return-through-signal"),
    "P21": Told("wire becomes hot, fuse stays whole", "fuse-big"),
    "P24": Told("the fuse keeps blowing", "fuse-small"),
    "P26": Told("motors are slow", "volts-lost"),
    "P30": Told("everything reboots when a motor starts", "bus-sags"),
    "M01": Told("cuts out when pushing hard", "current-limit"),
    "M05": Told("it lifts empty but not with a load", "torque-short"),
    "M07": Told("lift sags when I release the stick", "driven-back"),
    "M15": Told("clicking noise under load", "gear-broken"),
    "M31": Told("intake pushes things away", "rim-slow"),
    "M37": Told("won't drive straight, pulls left", "gain-mismatch"),
    "R02": Told("still drives after I turned the transmitter off", "holds-last"),
    "R03": Told("some motors run on with the transmitter off", "holds-last"),
    "R04": Told("creeps away once the handset is switched off", "preset-moving"),
    "R07": Told("flywheel keeps spinning with transmitter off", "preset-moving"),
    "R12": Told("a knob does nothing", "no-socket"),
    "R14": Told("gripper slams at switch-on", "start-usual"),
    "R17": Told("the radio range is bad", "transmitter-low"),
    "R18": Told("it worked yesterday and now it behaves differently", "settings-changed"),
    "X02": Told("the back lifts up when it stops hard", "tips-braking"),
    "X03": Told("tips forward when braking with the arm out", "arm-out"),
    "S19": Told("gripper twitches whenever I steer", "slave-channel"),
    "S20": Told("each stick only moves one side", "mixed-twice"),
    "S21": Told("forward turns only one wheel, steering the other", "not-mixed"),
    "S22": Told("forward only turns one wheel and steer only the other", "half-mixed"),
    "S23": Told("it can hardly steer at full speed", "mix-clips"),
    "S25": Told("two servos on a Y lead are fighting", "mirrored-servos"),
    "S26": Told("servo jitters with tester and receiver plugged in", "outputs-joined"),
    "S27": Told("servos hum at rest", "servos-fight"),
    "S29": Told("creeps each time differently when centred", "click-repeats-badly"),
    "S31": Told("pulls to a side only at half stick", "curves-unequal"),
    "S36": Told("creeps at neutral after switching on", "neutral-learned"),
    "S37": Told("servo runs to the end and stays", "servo-kind"),
    "S38": Told("servo buzzes all the time at rest", "frame-short"),
    "S40": Told("servo slams to one end", "neutral-family"),
    "S41": Told("servos twitch while the motors are running", "lead-long"),
    "P04": Told("receiver resets when the arm lifts", "bec-overloaded"),
    "P05": Told("resets when a motor starts", "bec-overloaded"),
    "P06": Told("works some minutes, then dead, then works again", "bec-hot"),
    "P08": Told("one servo is dead", "red-wire"),
    "P12": Told("nothing at all works and the receiver is dark", "box-no-plus"),
    "P15": Told("the thin servo lead is hot", "return-through-signal"),
    "P17": Told("spark when I plug in the battery", "plus-minus"),
    "P22": Told("wires get hot, the fuse is fine", "wire-thin"),
    "P27": Told("it restarts as the arm lifts", "bus-sags"),
    "P41": Told("receiver light stays on with the switch off", "second-source"),
    "P43": Told("resets only if it grips while lifting", "coincide"),
    "P44": Told("twitches when motors run", "motor-noise"),
    "M02": Told("cuts out at full push after a while", "controller-hot"),
    "M11": Told("cuts out when I flick it into reverse", "reversal-peak"),
    "M16": Told("motor turns but the arm doesn't", "shaft-slips"),
    "M17": Told("servo has no strength", "lever-long"),
    "M23": Told("lifts nothing but the empty carriage", "lift-rope"),
    "M29": Told("the second shot falls short", "recovers-late"),
    "M36": Told("it hops when it turns", "too-long"),
    "M38": Told("strafes the wrong way and won't turn", "all-hands"),
    "M40": Told("straight on the blocks, curved on the floor", "wheel-unloaded"),
    "M48": Told("arm rises jerkily", "slack"),
    "R05": Told("arm falls when the transmitter is off", "lost-neutral"),
    "R10": Told("radio has poor range", "antenna"),
    "R13": Told("receiver lit but nothing moves", "wrong-memory"),
}
