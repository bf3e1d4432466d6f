"""The page's own words: its buttons, headings and messages, by the keys that its script asks for.

`{places}` are filled by the script. What a plan says stands on the cards instead.
"""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.wording.catalogue import LOCALES, _
from sequencer.wording.room import Room

WORDS: Mapping[str, str] = {
    # Standing in the page before its script runs.
    "title": _("At the saw"),
    "list": _("List"),
    "undo": _("Undo"),
    "more": _("More"),
    "reading": _("Reading the plan"),
    "no_script": _("This page needs its script. The printed sheet says the same."),
    # The connection.
    "no_plan": _("There is no plan"),
    "planning": _("The plan is being worked out"),
    "planning_why": _("Nothing is to be cut yet. This page goes on by itself."),
    "disk_full": _("The disk of the program's machine is full or failing. Nothing is lost: {taps}"),
    "left_out_tap": _("That was not understood and has been left out."),
    "tap_waits": _("1 tap waits in this page and is sent once."),
    "taps_wait": _("{n} taps wait in this page and are sent once."),
    "offline": _("No answer from the program. {taps} Keep this page open; {sheet}"),
    "offline_kept": _("Without the program: the plan as at {at}. {taps}"),
    "without": _("no program"),
    "without_waits": _("no program: {n} wait"),
    "sheet_same": _("the printed sheet has the same numbers."),
    "sheet_differs": _("some numbers of the printed sheet no longer hold (see List)."),
    "go_on": _("Go on: taps wait here."),
    "moment": _("One moment …"),
    "answer_later": _("This reading waits for the connection; its answer comes then."),
    "moved": _("Moved as the slot was measured."),
    "not_good_here": _("{text} is not good: that is from {low} to {high}."),
    "by_hand": _("By hand, as printed: {how}"),
    "is_kept": _("Kept on this phone: it opens without the program."),
    "install": _("Put it on the home screen"),
    "not_kept": _("Not kept on this phone yet: install the certificate, as the program says."),
    "not_counted": _("{n} of the taps that waited do not count: look at the pieces."),
    # Undo.
    "undo_what": _("Undo: {what}"),
    "undo_unsent": _("not yet sent"),
    "undone_unsent": _("Undone: it had not been sent."),
    # How a piece stands.
    "done": _("✓ done"),
    "skipped": _("skipped"),
    "spoiled": _("spoiled, leave it out"),
    "waits": _("left out: it waits for another piece"),
    "not_done": _("not done"),
    # Where one is.
    "at_setup": _("{n} of {of} setups"),
    "at_step": _("{n} of {of} steps"),
    "screen_of": _("screen {n} of {of}"),
    "next_is": _("Next: {what}"),
    "minutes_left": _("{n} min setting"),
    "minutes_in_all": _("About {n} minutes of setting up are left."),
    "here": _("you are here"),
    "go_on_card": _("Read: go on"),
    "tick_these": _("Tick what stands above"),
    # What is held, and what types.
    "hold_or_twice": _("hold, or tap twice"),
    "tap_again": _("now tap again"),
    "tap_again_all": _("Tap again, or hold, if you mean it."),
    "not_asked": _("A number came in, but no reading is asked for here: nothing was done."),
    # A card that is looked at.
    "later": _("Not yet: this comes later."),
    "left_out_here": _("Something was left out here."),
    "all_done": _("Done."),
    "tick_first": _(
        "The cut is shown once everything is ticked that its setup asks for before power on."
    ),
    "show_drawing": _("Show the drawing"),
    "drawing": _("Drawing of this setup: {numbers}"),
    # Readings.
    "measure": _("Measure {what}"),
    "at_most": _("{tool}: at most {high}"),
    "target": _("{tool}: target {target}, good from {low} to {high}"),
    "again": _("Measure again"),
    "keypad": _("Keypad"),
    "space": _("space"),
    "delete": _("delete"),
    "field": _("{what}, in {unit}"),
    "enter": _("Enter"),
    "enter_first": _("Enter what you measured first."),
    "tight": _("Too tight"),
    "loose": _("Too loose"),
    "fits": _("It fits"),
    "keep": _("Keep it at {text} and plan the rest to suit"),
    "really": _("Yes, it measures {text}"),
    "had": _("{what}: {value}"),
    "had_before": _("{what}: {value} (before: {values})"),
    "not_measured": _("not measured"),
    "measure_again": _("Measure again: {what}"),
    # Beside the card.
    "skip": _("Skip {what}"),
    "skip_measuring": _("Skip measuring {what}"),
    "skip_this": _("Skip this"),
    "a_piece_is_spoiled": _("A piece is spoiled"),
    # The one big button, by the kind of card.
    "main_standing": _("Read, and kept to"),
    "main_guard": _("Done"),
    "main_set": _("It is set"),
    "main_power": _("All checked: switch on"),
    "main_leave": _("All checked: go on"),
    "main_test": _("Test piece is cut"),
    "main_remake": _("It is made"),
    "tick": _("Tick {what}"),
    # What a reading would change.
    "weigh": _("If it stays as it is"),
    "weigh_later": _("What this changes is worked out by the program: wait for the connection."),
    "change_what": _("What"),
    "change_before": _("Printed"),
    "change_after": _("Write"),
    "accept": _("Take these"),
    "decline": _("Leave the plan, correct the saw"),
    "print_changed": _("Print the changed lines"),
    "code_gone": _("What this code was printed for has changed since, or is made again: see List."),
    # Files that were edited since.
    "edited": _("The job was changed"),
    "edited_look": _("The job was changed: look at what that changes"),
    "edited_lost": _("Done already, and lost with it"),
    "edited_before": _("Until now"),
    "edited_after": _("Changed"),
    "edited_accept": _("Take the changes"),
    "edited_decline": _("Leave them, go on as before"),
    "told": _("To know before you go on"),
    # The list and the other panels.
    "more_here": _("What else"),
    "whole_list": _("The whole list"),
    "something_left_out": _("something left out"),
    "entry": _("{what}, {state}"),
    "measure_kerf": _("Measure kerf or panel"),
    "taken_as": _("taken as {value}"),
    "enter_measured": _("Enter what was measured"),
    "which_spoiled": _("Which piece is spoiled?"),
    "at_this_step": _("At this step"),
    "elsewhere": _("Elsewhere"),
    "again_later": _("made again later"),
    "end_left_out": _("The end, with something left out"),
    "end": _("Everything is done"),
    "back": _("Back"),
    "back_to": _("Back to {where}"),
    "window": _("{what} – at the saw"),
}


def words(room: Room) -> dict[str, str]:
    """By key, in the room's dialect, the places still in them."""
    return {key: room.text(text) for key, text in WORDS.items()}


def language(room: Room) -> str:
    """As a page declares it: `en-GB`."""
    return LOCALES[room.dialect].replace("_", "-")
