"""The table of symptoms: what may be behind each, and the tests that tell them apart.

Causes and tests are common practice, no source; what weighs how much is in the reference.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

Wet, Cold, Painted, Reglazed = (
    "in wet weather",
    "in cold weather",
    "since it was painted",
    "since reglazed",
)


class Cause(NamedTuple):
    """Something that may be behind a symptom."""

    name: str
    met: Literal["likely", "possible"]
    """How often it is met, before the survey is looked at."""
    sign: str = ""
    """The sign in a survey that speaks for or against it."""
    when: tuple[str, ...] = ()
    """When it shows."""


class Test(NamedTuple):
    """What to try or to look at, asked so that the answer is yes or no."""

    ask: str
    yes: tuple[str, ...]
    """The causes for which the answer is yes."""


class Entry(NamedTuple):
    """One symptom."""

    causes: tuple[Cause, ...]
    tests: tuple[Test, ...]


_PAINT, _SWOLLEN, _BEAD_TIGHT = "paint holds it", "it is swollen", "a bead is set too tight"
_CAUGHT, _SEIZED = "a weight is caught", "a wheel is seized"
_NAILED, _OUT = "it is nailed or screwed", "it is out of square"
_CORD, _LIGHT, _SLIPPED = "a cord has gone", "its pair is too light", "a cord has left its wheel"
_OFF, _EASY, _HEAVY_LINE = "its pair is off", "its runs are too easy", "its cord or chain is heavy"
_WORN, _NARROW, _CATCH = "its beads stand off", "it is too narrow", "its fastener does not draw up"
_PANES, _KNOCK = "panes are loose", "weights knock together"
_UNLIKE, _JOINTS, _ONE_SIDE = "its weights differ", "its joints are open", "it binds on one side"
_DAMP_AIR, _COLD, _PUTTY = (
    "the air of the room is damp",
    "single glass is cold",
    "putty lets water in",
)
_WET = "its timber is wet"

SYMPTOMS: dict[str, Entry] = {
    "stuck": Entry(
        (
            Cause(_PAINT, "likely", "painted", (Painted,)),
            Cause(_SWOLLEN, "likely", "swells", (Wet,)),
            Cause(_BEAD_TIGHT, "possible", "stiff", (Painted,)),
            Cause(_CAUGHT, "possible", "weight caught"),
            Cause(_SEIZED, "possible", "wheel seized"),
            Cause(_NAILED, "possible"),
            Cause(_OUT, "possible", "joints open"),
        ),
        (
            Test("Draw a thin blade along sash and bead: does paint bridge the gap?", (_PAINT,)),
            Test("Was it free in the last dry spell?", (_SWOLLEN,)),
            Test("Take off one staff bead: is it free now?", (_BEAD_TIGHT, _PAINT)),
            Test("Does it stir by a hair and then bind?", (_SWOLLEN, _BEAD_TIGHT, _OUT)),
            Test("Pull a cord out at its pulley: does its weight not stir?", (_CAUGHT,)),
            Test("Does a cord slide over a wheel that stands still?", (_SEIZED,)),
            Test("Are there nails or screws in stiles or meeting rails?", (_NAILED,)),
            Test("Measure corner to corner: do the two differ?", (_OUT,)),
        ),
    ),
    "drops": Entry(
        (
            Cause(_CORD, "likely", "cord gone"),
            Cause(_LIGHT, "likely", "pair light", (Reglazed,)),
            Cause(_CAUGHT, "possible", "weight caught"),
            Cause(_SLIPPED, "possible"),
        ),
        (
            Test("Prop the sash, and look at both pulleys: is a cord gone or slack?", (_CORD,)),
            Test("Hold it by a spring balance: is it much heavier than its pair?", (_LIGHT, _CORD)),
            Test("Raise it: does a cord go slack part of the way?", (_CAUGHT, _SLIPPED)),
            Test("Does the cord lie beside its wheel?", (_SLIPPED,)),
        ),
    ),
    "drifts": Entry(
        (
            Cause(_OFF, "likely", "pair off", (Reglazed,)),
            Cause(_EASY, "possible", "runs easy"),
            Cause(_HEAVY_LINE, "possible", "cord heavy"),
            Cause(_CORD, "possible", "cord gone"),
        ),
        (
            Test("Does it move the same way wherever it is left?", (_OFF, _CORD)),
            Test("Does it move near one end of its travel only?", (_HEAVY_LINE,)),
            Test(
                "Read a balance up and down: is half the difference off what the plan asks?",
                (_OFF,),
            ),
            Test("Push it with one finger: does it run as if on ice?", (_EASY,)),
            Test("Is a cord slack?", (_CORD,)),
        ),
    ),
    "rattles": Entry(
        (
            Cause(_WORN, "likely", "beads worn"),
            Cause(_CATCH, "likely", "fastener"),
            Cause(_NARROW, "possible", "loose fit"),
            Cause(_PANES, "possible", "panes loose"),
            Cause(_KNOCK, "possible", "no slip"),
        ),
        (
            Test("Press the sash against the outside: is it still?", (_WORN,)),
            Test("Draw the meeting rails together by hand: is it still?", (_CATCH,)),
            Test("Slide a coin between stile and pulley stile: does it go in?", (_NARROW,)),
            Test("Tap each pane: does one buzz?", (_PANES,)),
            Test("Does it knock only while it moves?", (_KNOCK,)),
        ),
    ),
    "racks": Entry(
        (
            Cause(_UNLIKE, "likely", "weights differ"),
            Cause(_JOINTS, "likely", "joints open"),
            Cause(_SEIZED, "possible", "wheel seized"),
            Cause(_ONE_SIDE, "possible", "painted", (Painted, Wet)),
            Cause(_CORD, "possible", "cord gone"),
        ),
        (
            Test("Lift it at its middle: does the same corner always lead?", (_UNLIKE, _CORD)),
            Test("Press a corner to and fro: does a joint open?", (_JOINTS,)),
            Test("Does one wheel stand still as it moves?", (_SEIZED,)),
            Test("Is one edge bright from rubbing?", (_ONE_SIDE,)),
            Test("Is one cord slack?", (_CORD,)),
        ),
    ),
    "sweats": Entry(
        (
            Cause(_DAMP_AIR, "likely", "", (Cold,)),
            Cause(_COLD, "likely", "", (Cold,)),
            Cause(_PUTTY, "possible", "putty gone", (Wet,)),
            Cause(_WET, "possible", "wet timber", (Wet,)),
        ),
        (
            Test("Do other cold things in the room run with water too?", (_DAMP_AIR,)),
            Test("Is it wet after rain, and dry in a frost?", (_PUTTY, _WET)),
            Test(
                "Tape a sheet of clear film over the inside: is the pane dry behind it?",
                (_DAMP_AIR, _COLD),
            ),
            Test("Is the water at the foot of the pane only?", (_PUTTY,)),
            Test("Does a moisture meter read high in the rail below?", (_WET, _PUTTY)),
        ),
    ),
}
"""By the survey's word for it."""
