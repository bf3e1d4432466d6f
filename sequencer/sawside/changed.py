"""The lines of the printed sheet that no longer hold, as they are now, to be printed alone.

Each has a code that opens the page there.
"""

from __future__ import annotations

from sequencer.facts import answers
from sequencer.sawside import view
from sequencer.sawside.cards import cards_of
from sequencer.sawside.flow import together
from sequencer.sawside.state import State
from sequencer.sawside.weighing import numbers, pairs, place
from sequencer.sheets.render import environment
from sequencer.wording import Room
from sequencer.wording.pages import language
from sequencer.wording.room import capitalised


def changed_lines(state: State, address: str, room: Room) -> str:
    """An HTML document. `address` is that of the page; the code of a line adds the card's key."""
    printed = State(state.base, state.base.plan, list(cards_of(state.base.plan)))
    done = {card.key for card in state.cards[: state.now]}
    lines: dict[str, dict[str, object]] = {}
    for old, new in pairs(printed, state, done, room):
        found = list(numbers(old, new))
        if not found and old is not None and old[0].at == new[0].at:
            continue
        at = new[0].at if old is None else place(old, new)
        key = new[0].key
        lines[key] = {
            "at": "" if at is None else capitalised(room.say(at)),
            "rows": found,
            "code": _code(f"{address}#{key}"),
        }
    in_order = [lines[card.key] for card in state.cards if card.key in lines]
    gone = answers.NO_LONGER_HOLD(places=together(state.gone)) if state.gone else None
    template = environment(None, room).get_template("changed.html.j2")
    return template.render(
        lang=language(room), jobs=state.plan.jobs, lines=in_order,
        gone="" if gone is None else view.all_said([gone], room),
    )  # fmt: skip


def _code(address: str) -> str:
    """As a drawing to be put into a page. Its size is the page's."""
    import segno

    return segno.make(address, error="m", micro=False).svg_inline(omitsize=True, border=2)
