"""What a piece lacks, in words: each feature with the figures that it is cut to, and where."""

from __future__ import annotations

from sequencer.wording.catalogue import _

HALF_LAP = _("half-lap {long} long, {deep} off the {side} {where}")
SLOT = _("slot {wide} wide, {deep} deep, {place} {where}")
TENON = _("tenon {long} long: {deep} off the {side} {where}")
TENON_WIDTH = _("tenon cut to width: {wide} off the {edge}, {long} long {where}")
GROOVE = _("groove {wide} wide, {deep} deep, {place} {where}")
TONGUE = _("tongue {long} long, {thick} thick, {place} {where}")
REBATE = _("rebate {wide} wide, {deep} deep from the {side} {where}")
HOUSING = _("housing {deep} deep, {start} to {stop} from end A {where}")
MITRE = _("mitre 45°, {deep} deep from the {side}, {long} long at the inside edge {where}")
BEVEL = _("bevel {wide} wide, {left} left at the rim {where}")
BEVEL_STEP = _("bevel {wide} wide, {left} left at the rim, step {step} at the field {where}")
FOLLOWS_SHAPE = _("groove {wide} wide, {place}, follows the shape {where}")
FOLLOWS_AT_BENCH = _("groove {wide} wide, {place}, follows the shape (at the bench) {where}")
SHAPED = _("shaped, {deep} at its deepest {where}")
SHAPED_AT_BENCH = _("shaped, {deep} at its deepest (at the bench) {where}")
OTHER = _("{kind}: {long} × {wide} × {deep} {where}")

CENTRED = _("centred")
FROM_MARKED = _("{far} from the marked face")

AT = _("at {side}")
ALONG = _("along the {side}")
ON = _("on the {side}")
AT_BOTH_ENDS = _("at both ends")
ALONG_BOTH_EDGES = _("along both edges")
ALL_ROUND = _("all round")

JOINT_AT = _("{joint} at {ends}")
JOINT_ALL_ROUND = _("{joint} all round")

# In the table of parts, what its columns cannot say.
NOT_AS_COLUMNS = _("{joints}: not as these columns have it")
SLOT_NOT_IN = _("tenon: the piece with its slot, {mark}, is not in them")
