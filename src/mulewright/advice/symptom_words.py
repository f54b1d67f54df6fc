"""Which symptom does a person mean? Words are matched by stem and by likeness, without any network."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache
from itertools import chain
from math import log

from mulewright.errors import NotFound
from mulewright.shelf.symptoms import BenchSymptom, alike, ignored, symptoms

LEAST = 0.4  # likeness below which nothing is found
NEARLY = 0.75  # of the best likeness: just as well meant
MOST = 4
TYPO, SHORTEST = 0.83, 4  # likeness of a word that is taken for another one, and letters that it has at least
ORDER = 0.1  # how much of the likeness lies in the order of the words
STRANGE = 3.0  # weight of a word that stands in no symptom
WORD = re.compile(r"[^\W_]+(?:-[^\W_]+)*")


@dataclass(frozen=True)
class Match:
    """A symptom, and how like its words are to those that were typed, from 0 to 1."""

    symptom: BenchSymptom
    likeness: float


def matches(text: str, names: Mapping[str, str] | None = None) -> list[Match]:
    """Find the symptoms that some words mean, the likeliest first.

    Parameters
    ----------
    text : str
        What a person sees, or the id of a symptom.
    names : mapping, optional
        What things of the mule are called, with a plain word for each: ``{"boom": "arm"}``.

    Returns
    -------
    matches : list
        The best match and those nearly as good.

    Raises
    ------
    NotFound
        If no symptom is like it; the message names the nearest.
    """
    if text.strip() in symptoms():
        return [Match(symptoms()[text.strip()], 1.0)]
    found = _ranked(_meant(text, names or {}))
    if not found or found[0].likeness < LEAST:
        rule = "a few words for what one sees, such as 'arm sinks'"
        nearest = tuple(one.symptom.says for one in found[:MOST] if one.likeness)
        raise NotFound("no symptom is like that", "the symptom", rule, text, nearest or _by_letters(text))
    return [one for one in found if one.likeness >= NEARLY * found[0].likeness][:MOST]


def _ranked(words: Sequence[str]) -> list[Match]:
    weights = _weights()

    def weigh(some: Iterable[str]) -> float:
        return sum(weights.get(word, STRANGE) for word in set(some))

    def likeness(phrase: Sequence[str]) -> float:
        shared = 2 * weigh(set(words) & set(phrase)) / (weigh(words) + weigh(phrase))
        return (1 - ORDER) * shared + ORDER * SequenceMatcher(None, words, phrase, autojunk=False).ratio()

    found = [Match(symptoms()[id], max(map(likeness, phrases))) for id, phrases in _phrases().items()]
    return sorted(found, key=lambda one: -one.likeness)  # among equals, the order of the table


def _meant(text: str, names: Mapping[str, str]) -> list[str]:
    """What the words mean, with slips of the finger put right."""
    called = {stem(name): meaning(word) for name, word in names.items()}
    return [called.get(stem(word)) or meaning(_spelt(word)) for word in _told(text)]


def _spelt(word: str) -> str:
    """A word as it is known, or the known word that it is most like."""
    if meaning(word) in _weights() or len(word) < SHORTEST:
        return word
    return next(iter(get_close_matches(word, _known(), n=1, cutoff=TYPO)), word)


def _told(text: str) -> Iterator[str]:
    """The words that tell something."""
    for word in WORD.findall(text.casefold()):
        pieces = [word] if stem(word) in _senses() else word.split("-")
        yield from (one for one in pieces if one not in ignored() and not one.isdigit())


@lru_cache(maxsize=1)
def _stemmer():  # type: ignore[no-untyped-def]  # the library has no types
    from snowballstemmer import stemmer

    return stemmer("english")


@lru_cache(maxsize=4096)
def stem(word: str) -> str:
    """A word without its endings: ``sinks`` and ``sinking`` are ``sink``."""
    return str(_stemmer().stemWord(word.casefold()))


def meaning(word: str) -> str:
    """One word for all that people use for the same thing."""
    return _senses().get(stem(word), stem(word))


@lru_cache(maxsize=1)
def _senses() -> Mapping[str, str]:
    return {stem(word): stem(group[0]) for group in alike() for word in group}


@lru_cache(maxsize=1)
def _known() -> Sequence[str]:
    """Every word as it is written in the table."""
    written = (word for one in symptoms().values() for phrase in one.phrases for word in _told(phrase))
    return sorted({*written, *chain(*alike())})


@lru_cache(maxsize=1)
def _phrases() -> Mapping[str, list[list[str]]]:
    return {
        id: [list(map(meaning, _told(phrase))) for phrase in one.phrases] for id, one in symptoms().items()
    }


@lru_cache(maxsize=1)
def _weights() -> Mapping[str, float]:
    """What each word tells: the rarer among the symptoms, the more."""
    held = Counter(word for phrases in _phrases().values() for word in set().union(*phrases))
    return {word: log(1 + len(symptoms()) / count) for word, count in held.items()}


def _by_letters(text: str) -> tuple[str, ...]:
    folded = {one.says.casefold(): one.says for one in symptoms().values()}
    return tuple(folded[hit] for hit in get_close_matches(text.casefold(), folded, n=MOST, cutoff=0.0))
