"""Rules on standing pieces, and what saw, sled and jig can take at all (groups E, G and H).

Each predicate looks for one rule in one pass and returns what it found, or `None`.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.safety.findings import Finding, Predicate, in_jig, on_fence, on_sled
from sequencer.safety.handling import waste
from sequencer.safety.moments import OPPOSITE, Moment
from sequencer.safety.rules import Limits


def on_end_unheld(m: Moment, _: Limits) -> Finding | None:
    """E01. A panel's end may be bevelled with its back flat on the fence; how wide it must be is
    J01's."""
    if not m.on_end or in_jig(m):
        return None
    bevel = on_fence(m) and m.does == "bevel" and m.cut.against in ("face", "back")
    return None if bevel else Finding("E01", "refuse")


def tall_on_end(m: Moment, limits: Limits) -> Finding | None:
    """E02."""
    refused, most = limits["tallest_on_end"], limits["longest_on_end"]
    if not m.on_end or m.length <= min(refused, most):
        return None
    if m.length > refused:
        return Finding("E02", "refuse", m.length, refused, "tallest")
    return Finding("E02", "warn", m.length, most, "fence" if on_fence(m) else "")


def cheek_trapped(m: Moment, _: Limits) -> Finding | None:
    """E03. Waste between jig and blade, where the shoulder has freed it already; scrap has no
    design to tell waste by."""
    if m.does not in ("cheek", "edge cheek") or not m.on_end or m.part is None:
        return None
    end, against, guide = m.cut.down[-1], m.cut.against or "", m.setup.guide
    kind, axis = ("cheek", 2) if against in ("face", "back") else ("edge-cheek", 1)
    whole = m.thickness if axis == 2 else m.width
    if guide is None or guide <= 0 or not _shoulder_cut(m, end, against):
        return None
    low, high = (
        (whole - guide, whole) if against in ("back", "outside-edge") else (Fraction(0), guide)
    )
    kinds = (kind, "slot")  # a half-lap's slot is open to a face
    waste = (f.box[axis] for f in m.part.features if f.kind in kinds and f.at == end)
    if any(box_low <= low and high <= box_high for box_low, box_high in waste):
        return Finding("E03", "refuse", guide)
    return None


def _shoulder_cut(m: Moment, end: str, side: str) -> bool:
    return any((end, f"{kind} {side}") in m.done for kind in ("shoulder", "edge shoulder"))


def waste_drops(m: Moment, limits: Limits) -> Finding | None:
    """E09."""
    return Finding("E09", "caution") if waste(m, limits).what == "cheek" else None


def shoulder_trapped(m: Moment, _: Limits) -> Finding | None:
    """E04."""
    if m.does not in ("shoulder", "edge shoulder") or m.cut.against is None:
        return None
    # A cheek cut's waste lies on the open side of the jig: opposite what was against it.
    freed = f"{'cheek' if m.does == 'shoulder' else 'edge cheek'} {OPPOSITE[m.cut.down]}"
    return Finding("E04", "refuse") if (m.cut.against[-1], freed) in m.done else None


def fence_height(m: Moment, limits: Limits) -> Finding | None:
    """E05. Without a figure in the shop file the fence is an ordinary one."""
    if not (on_fence(m) and (m.on_edge or m.on_end)):
        return None
    need = min(m.standing_height / 2, limits["tall_fence"])
    stated = m.shop.saw.fence_height
    fence = limits["ordinary_fence"] if stated is None else stated
    if need <= fence:
        return None
    return Finding("E05", "warn", need, fence)


def drops_into_insert(m: Moment, limits: Limits) -> Finding | None:
    """E07. The edge that stands on the table, what a through cut leaves on either side, or what a
    bevel or a rebate leaves of that edge; a sled's deck covers the insert."""
    if on_sled(m) and m.shop.sled.deck > 0:
        return None
    most = limits["insert_opening"]
    narrow = [m.resting]
    if m.through and m.setup.guide is not None:
        narrow += [side for side in (m.setup.guide, m.beyond) if side > 0]
    elif m.does in ("bevel", "rebate") and (m.on_edge or m.on_end) and m.setup.guide:
        narrow.append(m.setup.guide)
    return Finding("E07", "warn", min(narrow), most) if min(narrow) <= most else None


def high_blade(m: Moment, limits: Limits) -> Finding | None:
    """E08. Counted above the deck that the piece stands on."""
    most = limits["highest_on_end"]
    if (m.on_end or m.on_edge) and m.setup.depth > most:
        return Finding("E08", "warn", m.setup.depth, most)
    return None


def long_piece(m: Moment, limits: Limits) -> Finding | None:
    """G05."""
    most = limits["long_piece"]
    if m.does == "rip" or (not m.on_end and m.length > most):
        return Finding("G05", "caution", m.length, most)
    return None


def sled_length(m: Moment, _: Limits) -> Finding | None:
    """H01."""
    most = m.shop.sled.longest
    return Finding("H01", "refuse", m.length, most) if on_sled(m) and m.length > most else None


def sled_width(m: Moment, _: Limits) -> Finding | None:
    """H02. On edge the thickness lies along the feed."""
    most = m.shop.sled.widest
    deep = m.thickness if m.on_edge else m.width
    return Finding("H02", "refuse", deep, most) if on_sled(m) and deep > most else None


def jig_opening(m: Moment, _: Limits) -> Finding | None:
    """H03."""
    most = m.shop.jig.opening
    if in_jig(m) and m.across + m.setup.spacer > most:
        return Finding("H03", "refuse", m.across, most)
    return None


def saw_height(m: Moment, _: Limits) -> Finding | None:
    """H04."""
    most = m.shop.saw.max_height
    return Finding("H04", "refuse", m.setup.height, most) if m.setup.height > most else None


def cutter_reach(m: Moment, _: Limits) -> Finding | None:
    """H05. Where the saw itself is the limit, H04 says so."""
    largest = max(cutter.diameter for cutter in m.shop.cutters)
    reach = m.shop.saw.max_height - (largest - m.cutter.diameter) / 2
    if reach < m.setup.height <= m.shop.saw.max_height:
        return Finding("H05", "refuse", m.setup.height, max(reach, Fraction(0)))
    return None


def short_on_end(m: Moment, limits: Limits) -> Finding | None:
    """H06."""
    least, left = limits["clamped_on_end"], m.length - m.setup.depth
    if m.on_end and left < least:
        return Finding("H06", "refuse", max(left, Fraction(0)), least)
    return None


def bearing(m: Moment, limits: Limits) -> Finding | None:
    """H07. A cheek that is cut away bears on nothing; a slot leaves the face whole."""
    if not on_fence(m) or m.part is None or m.cut.against is None:
        return None
    kind = "cheek" if m.cut.against in ("face", "back") else "edge-cheek"
    worked = {end for end, what in m.done if "cheek" in what or "sweep" in what}
    lost = Fraction(0)
    for end in sorted(worked):
        cheeks = (f.box[0] for f in m.part.features if f.kind == kind and f.at == end)
        lost += max((high - low for low, high in cheeks), default=Fraction(0))
    left, least = m.length - lost, limits["bearing_between_shoulders"]
    return Finding("H07", "refuse", left, least) if lost and left < least else None


def bearing_in_jig(m: Moment, limits: Limits) -> Finding | None:
    """H08. A cheek sawn with one side against the jig is lost on the opposite side."""
    if not in_jig(m) or m.part is None or m.cut.against not in OPPOSITE:
        return None
    opposite = OPPOSITE[m.cut.against]
    kind = "cheek" if opposite in ("face", "back") else "edge cheek"
    worked = {end for end, what in m.done if what == f"{kind} {opposite}"}
    lost = Fraction(0)
    for end in sorted(worked):
        cheeks = [f for f in m.part.features if f.kind == kind.replace(" ", "-") and f.at == end]
        lost += max((f.box[0][1] - f.box[0][0] for f in cheeks), default=Fraction(0))
    left, least = m.length - lost, limits["bearing_in_jig"]
    return Finding("H08", "refuse", left, least) if lost and left < least else None


CHECKS: dict[str, Predicate] = {
    "E01": on_end_unheld,
    "E02": tall_on_end,
    "E03": cheek_trapped,
    "E04": shoulder_trapped,
    "E05": fence_height,
    "E07": drops_into_insert,
    "E08": high_blade,
    "E09": waste_drops,
    "G05": long_piece,
    "H01": sled_length,
    "H02": sled_width,
    "H03": jig_opening,
    "H04": saw_height,
    "H05": cutter_reach,
    "H06": short_on_end,
    "H07": bearing,
    "H08": bearing_in_jig,
}
