"""People's own words lead to the symptom that they mean."""

from __future__ import annotations

import pytest

from mulewright.advice.symptom_words import matches, stem
from mulewright.errors import NotFound
from mulewright.shelf.symptoms import symptoms

LEAST_FIRST, LEAST_LISTED = 0.85, 0.95

# as people said it who had not read the table
SAID = {
    "when I push forward it just spins round": "forward-spins",
    "robot drives backwards if I push the stick forward": "forward-goes-back",
    "steering is the wrong way round": "steer-mirrored",
    "pushing forward only one wheel turns": "one-wheel-per-stick",
    "both wheels do the same whichever stick I push": "both-obey-alike",
    "drives diagonally on forward": "rollers-forward-diagonal",
    "drifts diagonally while strafing": "strafe-diagonal",
    "left wheel not moving": "one-still",
    "one motor slower than the others": "one-slow",
    "right wheel runs in reverse": "one-backwards",
    "slowly creeping with sticks centred": "creeps-same-way",
    "motor runs as soon as I power on": "runs-at-switch-on",
    "no lights on receiver": "all-dark",
    "receiver is lit but nothing moves": "lit-nothing-moves",
    "receiver LED blinking slowly": "blinks-slowly",
    "receiver LED is flashing fast": "blinks-fast",
    "reboots every time the arm lifts": "resets-on-lift",
    "resets if I grip and lift together": "resets-grip-and-lift",
    "works for three minutes then dead then works again": "works-rests-works",
    "motors cut out at full push": "cuts-out-pushing",
    "cuts out when I flick the stick to reverse": "cuts-out-flick",
    "fuse keeps blowing": "fuse-blows",
    "battery cable gets warm but fuse ok": "wire-hot",
    "servo humming at rest": "servo-buzzes",
    "servos jittering": "servo-jitters",
    "servo stops halfway": "servo-half-way",
    "the two servos fight each other": "servos-opposite",
    "weak servo": "servo-weak",
    "arm droops when I release the stick": "arm-sinks",
    "arm moves up in jerks": "arm-jerky-up",
    "can't lift the load, only empty": "lifts-empty-only",
    "gearmotor spins but arm stays put": "motor-turns-arm-not",
    "clicking gearbox": "clicks-under-load",
    "gets slower during the day": "slower-over-day",
    "veers to the left": "pulls-aside",
    "runs straight on blocks but curves on the ground": "straight-on-blocks",
    "can't turn when flat out": "no-turn-at-speed",
    "hops in turns": "hops-turning",
    "twitchy near the centre of the stick": "twitchy-centre",
    "controller keeps beeping": "beeps-never-arms",
    "poor range": "range-poor",
    "glitches when the motors run": "twitches-with-motors",
    "keeps driving with the transmitter off": "drives-on-without-link",
    "arm drops when I turn the transmitter off": "arm-falls-without-link",
    "slow mode doesn't work for the arm": "slow-mode-misses",
    "gripper twitching while steering": "gripper-twitches-steering",
    "big spark when connecting the battery": "spark",
    "ESC hot while idle": "controller-hot-idle",
    "servo lead melts": "thin-lead-hot",
    "receiver still on when switched off": "alive-when-off",
    "third shot too short": "later-shots-short",
    "shots go left and right": "shots-scatter",
    "intake bulldozes": "roller-pushes",
    "tail comes up under braking": "tail-lifts",
    "wheels slip at the wall": "wheels-spin-pushing",
    "servo works on tester but not with receiver": "tester-works-receiver-not",
    "it was fine yesterday": "worked-yesterday",
}

# short ones, as they are shouted across the bench
SHORT = {
    "jaw buzzes": "servo-buzzes",
    "gripper hums": "servo-buzzes",
    "claw is buzzing when shut": "servo-buzzes",
    "servo whines and won't stop": "servo-buzzes",
    "arm drops when I let go": "arm-sinks",
    "arm won't stay up": "arm-sinks",
    "left wheel won't spin": "one-still",
    "it veers to the left": "pulls-aside",
    "pulls right": "pulls-aside",
    "left and right swapped": "steer-mirrored",
    "steering is reversed": "steer-mirrored",
    "lurches at the start": "nothing-then-jump",
    "cannot creep slowly": "nothing-then-jump",
    "too fast, hard to control": "twitchy-centre",
    "moves by itself": "creeps-same-way",
    "turns on its own": "creeps-same-way",
    "gears grind": "clicks-under-load",
    "plug melted": "wire-hot",
    "gripper doesn't hold": "servo-weak",
    "drops what it holds": "servo-weak",
    "gripper lets go of things": "servo-weak",
    "nods when braking": "tail-lifts",
    "flywheel too slow": "one-slow",
    "winch turns but rope doesn't": "motor-turns-arm-not",
    "arm stutters": "arm-jerky-up",
    "browns out when the arm lifts": "resets-on-lift",
}


def test_people_are_understood() -> None:
    found = {}
    for text in SAID:
        try:
            found[text] = [one.symptom.id for one in matches(text)]
        except NotFound:
            found[text] = []
    first = [text for text, ids in found.items() if ids[:1] == [SAID[text]]]
    listed = [text for text, ids in found.items() if SAID[text] in ids]
    missed = {text: ids for text, ids in found.items() if text not in first}
    assert len(first) >= LEAST_FIRST * len(SAID), missed
    assert len(listed) >= LEAST_LISTED * len(SAID), missed


@pytest.mark.parametrize("text", SHORT)
def test_short_words_lead_there_first(text: str) -> None:
    assert matches(text)[0].symptom.id == SHORT[text]


def test_every_symptom_is_found_by_each_of_its_own_phrases() -> None:
    for id, one in symptoms().items():
        for phrase in (id, *one.phrases):
            assert matches(phrase)[0].symptom.id == id, phrase


@pytest.mark.parametrize("text", ["arm snks", "ARM SINKS!", "arms sinking", "the arm sags", "Arm — sinks"])
def test_slips_endings_and_other_words_are_forgiven(text: str) -> None:
    assert matches(text)[0].symptom.id == "arm-sinks"


def test_what_is_called_an_arm_counts_as_one() -> None:
    assert matches("ελιά sinks", {"ελιά": "arm"})[0].symptom.id == "arm-sinks"


@pytest.mark.parametrize("text", ["", "   ", "zzz qqq xxyy", "the it and", "{0} <svg> =1+1", "Грейфер"])
def test_what_nobody_means_names_the_nearest(text: str) -> None:
    with pytest.raises(NotFound, match="no symptom is like that") as no:
        matches(text)
    assert set(no.value.nearest) <= {one.says for one in symptoms().values()}
    assert no.value.nearest


def test_words_lose_their_endings() -> None:
    assert stem("Sinks") == stem("sinking") == "sink"
