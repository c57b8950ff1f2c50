"""Every note a plan can make: its code, how grave it is, and its words.

The words of the notes are here; those of a verdict's reason are in `verdict`.
Codes are never reused for another meaning.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.notes import Note

if TYPE_CHECKING:
    from evenhung.notes import Severity


class Entry(NamedTuple):
    """One kind of note."""

    severity: Severity
    words: str
    """What it says; names in braces are filled in."""


ENTRIES: dict[str, Entry] = {
    # what was taken for granted
    "assumed": Entry("info", "{what} taken as {value}"),
    "estimated": Entry(
        "info", "mass estimated as {mass}, give or take {spread} (one standard deviation); weigh it"
    ),
    "moisture-assumed": Entry(
        "info",
        "timber taken at {moisture} % moisture, as it comes to in {temperature} C and {humidity} %",
    ),
    "readings-uncorrected": Entry(
        "info",
        "neither pair nor sash is known: friction from readings is the total, pulleys included",
    ),
    "pair-from-readings": Entry(
        "info", "the readings put the pair at {pair}, taking the sash as {mass}"
    ),
    "readings-impossible": Entry(
        "caution",
        "by the readings the pair would weigh less than nothing: raising takes more than lifting "
        "the whole sash; free it, or read the balance again",
    ),
    "stock-assumed": Entry(
        "info",
        "no stock is stated: make-weights of {sizes} in {metal} and new weights of {metals}, "
        "{across} thick, are taken to be had, at no price",
    ),
    "allotted-in-steps": Entry(
        "info",
        "masses in units that do not go into each other are rounded to {step} for the allotment, "
        "and pairs kept inside their limits by all that rounding could do: the proof holds for "
        "the rounded masses",
    ),
    "bars-by-mass": Entry(
        "info",
        "a new weight is priced by its share of a bar; whole bars are bought, and offcuts are "
        "left out of the proof",
    ),
    "held-against": Entry(
        "caution", "{place}: {weight} is held there by decision, though {against}"
    ),
    # what could not be checked
    "mass-unknown": Entry("caution", "a {head} head cannot be estimated: weigh the sash"),
    "no-room-for-glass": Entry(
        "caution",
        "the assumed members leave no glass: state stile, rails and bars, or weigh the sash",
    ),
    "weight-unweighed": Entry("caution", "{side} weight is not weighed{guess}"),
    "weight-unrecorded": Entry("caution", "{side} weight is not in the survey"),
    "length-unknown": Entry(
        "info", "longest cord and clearance at the bottom not checked: no weight length"
    ),
    "nail-unknown": Entry(
        "info",
        "nail against pulley not checked: top nail not stated; all the cord is taken to stretch",
    ),
    "nail-length-unknown": Entry("info", "nail against glass not checked: nail length not stated"),
    "pocket-unknown": Entry("info", "pocket not checked: {missing} not stated"),
    "turning-unknown": Entry(
        "info", "turning in the compartment not checked: {missing} not stated"
    ),
    "make-weight-length-unknown": Entry(
        "info", "length of the made-up {side} weight not checked: its diameter is not stated"
    ),
    "made-lighter": Entry(
        "caution",
        "the {side} weight would be made lighter, which the house's policy does not allow: an "
        "allotment may find another that serves; or else allow it, at house.policy.trim",
    ),
    "shared": Entry(
        "caution",
        "{what} is shared with {other}: not computed here; "
        "clearances and pair hold for this window alone",
    ),
    # what is odd in the survey
    "heights-disagree": Entry(
        "caution",
        "heights of the sashes less their overlap come to {sum}, the clear height is {clear}: "
        "measure again",
    ),
    "weighing-odd": Entry(
        "caution",
        "weighed {weighed}, though its parts come to about {parts}: "
        "check the scale, the glass and the sizes; the weighing stands",
    ),
    "density-odd": Entry(
        "caution",
        "{side} weight comes to {found} kg/m3 by its size, {metal} is about {expected}: "
        "check its size, metal and mass",
    ),
    "denser-than-lead": Entry(
        "caution",
        "{side} weight comes to {found} kg/m3 by its size, and lead is about {expected}: "
        "check its mass and size before it is hung or lifted",
    ),
    "mark-differs": Entry(
        "info", "{side} weight is marked {marked}; marks are not trusted, the weighing stands"
    ),
    "unlike-lines": Entry(
        "caution",
        "hangs on {lines}: hang both sides alike; "
        "lengths are for the first, and a chain or tape is set to the taut mark",
    ),
    "band-closed": Entry(
        "caution",
        "so heavy a sash leaves no width between least and most: "
        "state a band in the house's policy",
    ),
    "readings-disagree": Entry(
        "caution",
        "by the readings the excess is {read}, by the weighings {weighed}: "
        "look for a jammed weight, a seized wheel or a wrong weighing",
    ),
    # what stops it
    "band-empty": Entry(
        "fault",
        "no cord will do{where}: the weight is {short} too long for {travel} of travel; "
        "a weight of at most {longest}, or {short} less travel, would run; "
        "if it ran before, measure the box again",
    ),
    "cord-end-high": Entry(
        "fault",
        "the cord ends {over} above the pulley when the sash is up: end it lower in the groove",
    ),
    "nail-high": Entry(
        "fault",
        "top nail {over} too high: the sash {consequence}; "
        "move it to {least} or more below the top",
    ),
    "pocket-small": Entry("fault", "{side} weight needs a pocket {needed} high, this is {height}"),
    "too-thick": Entry(
        "fault",
        "{side} weight is {across} thick, its box {depth} deep: measure again, or hang another",
    ),
    "pocket-narrow": Entry("fault", "{side} weight is {across} across, its pocket {width} wide"),
    "pocket-low": Entry(
        "caution",
        "{side} weight: its tail may strike the sill on the way in; "
        "the top of the pocket would have to be {higher} higher",
    ),
    # what to look at
    "one-cord": Entry(
        "caution", "hangs on one cord or none: it may drop; prop it before anything is touched"
    ),
    "cord-frayed": Entry("caution", "{side} cord is frayed: it may part; renew it"),
    "cord-broken": Entry(
        "caution", "{side} cord is broken: its weight lies in the box and carries nothing"
    ),
    "painted-in": Entry(
        "caution", "{side} cord is painted in: it may not run, and is weak where it is freed"
    ),
    "nail-reaches-glass": Entry(
        "caution", "a nail of {length} comes to the glass: at most {room} here"
    ),
    "cord-proud": Entry(
        "caution", "a cord of {cord} stands proud of a groove of {groove}: it will rub"
    ),
    "creep": Entry(
        "caution",
        "a new cord may creep and its knot settle by {creep}, the weight has {left} below it: "
        "look again after some weeks",
    ),
    "pulley-seized": Entry(
        "caution",
        "{side} wheel is seized: free it; as found the cord slides over it, "
        "what is to be hung is reckoned on a wheel that turns",
    ),
    "drifts-at-end": Entry(
        "caution", "{when}, the cord's own mass moves it near the {end} of its travel"
    ),
    "depends-on-friction": Entry(
        "info", "{when}, it {what} only with more than {turns} of friction in the runs"
    ),
    "cord-light": Entry(
        "caution",
        "{mass} on a cord of {cord}: an old table allows {most}; take a thicker cord, or chain",
    ),
    "turns-tight": Entry("caution", "{side} weight can catch as it turns: {short} short of room"),
    "square-runs-worse": Entry(
        "info", "square weight: it sweeps a wider circle than a round one as it turns"
    ),
    "passing-unknown": Entry(
        "caution",
        "no parting slip on the {side}, and whether the two weights can strike there "
        "is not known: {missing}; fit a slip",
    ),
    "weights-may-strike": Entry(
        "caution",
        "no parting slip on the {side}: the two weights pass over {overlap} of height "
        "with {room} between them; fit a slip",
    ),
    "tight-sash": Entry(
        "caution", "only {side} a side between sash and stile; about {usual} is usual"
    ),
    "two-people": Entry("caution", "{mass}: lift it with two people"),
    "hoist": Entry("caution", "{mass}: too much for two people; hoist it, or take the glass out"),
    "too-stiff": Entry(
        "caution",
        "{when}, it takes {force} to {way} it, where a window standard stops at {most}: ease it",
    ),
    "does-not-stay": Entry(
        "caution", "{when}, it does not stay put with less than {turns} of friction in the runs"
    ),
    # on how it ran once the work was done
    "proof-moves-against": Entry(
        "caution",
        "it {did} when let go, though {against}: let it go again without a push; "
        "look for a weight that is caught or a cord off its wheel",
    ),
    "proof-stays-at-rest": Entry(
        "caution",
        "it stays where it is left, though by the balance it {goes} by itself once it moves: "
        "only the grip of rest holds it, and a knock may set it off",
    ),
    "proof-excess-differs": Entry(
        "caution",
        "by the pulls the excess is {read}, by the weighings {weighed}: "
        "see that what hangs there is what was recorded, and read the balance again",
    ),
    "proof-pull-light": Entry(
        "caution",
        "{way} took {under} less than the least reckoned: "
        "see that what hangs there is what was recorded; read the pull the other way too",
    ),
    "proof-near-limit": Entry(
        "info",
        "by the pulls the excess is {beyond} outside its limits, which is within what the "
        "readings may be out: {spread} (one standard deviation)",
    ),
    # on the repair of what was found
    "treatment-decided": Entry(
        "info", "{part}: {what}, as decided in the survey; {proposed} was proposed"
    ),
    "extent-unknown": Entry(
        "info",
        "{part}: how far and how deep it goes is not recorded; "
        "what is taken away is not reckoned: measure it",
    ),
    "deeper-than-usual": Entry(
        "caution",
        "{part}: found {deep} deep, and such a part usually measures {usual} at its widest: "
        "measure it again, and state its size where the form asks for it",
    ),
    "longer-than-usual": Entry(
        "caution",
        "{part}: found {long} long, and such a part usually measures {usual}: measure it again, "
        "and state its size where the form asks for it",
    ),
    "no-room-to-splice": Entry(
        "caution",
        "{part}: no room beyond the decay for a splice's slope; "
        "what is taken away is not reckoned: renew the part, or take a steeper slope",
    ),
    "let-in": Entry("info", "{part}: let in {deep} deep; the rest of the section runs through"),
    "scarf-steep": Entry(
        "caution",
        "{part}: at 1 in {slope} the joint is {ratio} times the section, where ten times is "
        "asked; 1 in {nearest} is recalled as {strength} % of clear wood: for joinery that "
        "bears nothing only",
    ),
    "may-bear-load": Entry(
        "caution",
        "{part}: see that nothing stands on it before it is cut; where it bears load, "
        "not without an engineer",
    ),
    "cut-under-load": Entry(
        "fault", "{part} bears load: not to be cut or spliced without an engineer"
    ),
    "decay-wet": Entry(
        "caution",
        "{part}: read at {reading} % moisture; find where the water comes from, and let it dry "
        "below {safe} % before it is glued, filled or painted",
    ),
    "historic-glass": Entry(
        "caution",
        "{part}: old glass, hard to match: keep it if it can be kept; soften its putty, do not "
        "hack it, and keep heat off it",
    ),
    "sash-mostly-new": Entry(
        "info", "{place} sash: {share} % of its timber would be new: consider a new sash"
    ),
    "curved-as-square": Entry(
        "info", "{place} sash: its curved head is reckoned as if square: its fabric is about right"
    ),
    # on new panes
    "measure-rebates": Entry(
        "caution",
        "panes are sized from the sash's own sizes: measure each rebate, both ways and corner to "
        "corner, before glass is ordered",
    ),
    "safety-glass": Entry("caution", "{pane}: {says}: safety glass may be asked for. {deference}"),
    "safety-glass-unknown": Entry(
        "info", "{pane}: {rule} not checked: {missing} not stated. {deference}"
    ),
    "glass-not-checked": Entry(
        "caution",
        "new panes: {what} Where any of that is near, ask before glass is ordered.{repair}",
    ),
    "guarding": Entry("caution", "{says}: a guard or a stop may be asked for. {deference}"),
    "lead-weight": Entry("caution", "{rule}"),
    "hazard": Entry("caution", "{rule}"),
}
"""By code."""


def note(code: str, source: str = "", **words: str) -> Note:
    """Make a note.

    Parameters
    ----------
    code
        One of `ENTRIES`.
    source
        Where its value or rule comes from; empty where it follows from the survey itself.
    words
        What its words leave open.

    Examples
    --------
    >>> note("pocket-unknown", missing="pocket height").text
    'pocket not checked: pocket height not stated'
    """
    entry = ENTRIES[code]
    return Note(code, entry.severity, entry.words.format(**words), source or "survey")
