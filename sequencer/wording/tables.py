"""What is wrong with a table of pieces, and how to write it."""

from __future__ import annotations

from sequencer.facts import tables
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    tables.NO_COLUMN: _("no column {names:comma}"),
    tables.FIRST_ROW: _("the first row names the columns: {names:comma}"),
    tables.COLUMN_TWICE: _("two columns are named {name}"),
    tables.NO_TABLE: _("not a table: {found}"),
    tables.SAVE_AS_CSV: _("save it as CSV, UTF-8"),
    tables.NO_SPREADSHEET: _("this is no OpenDocument spreadsheet"),
    tables.SAVE_AS_ODS: _("save it as .ods, or as .csv"),
    tables.NEAR_COLUMN: _("unknown column {name}"),
    tables.NO_PIECES: _("no pieces in the table"),
    tables.ROW_EACH: _("write a row for each piece, below the columns' names"),
    tables.TOO_MANY: _("more than {most} pieces in one table"),
    tables.SPLIT_TABLE: _("split it"),
    tables.MORE_CELLS: _("{cells} cells in a row of {columns} columns"),
    tables.DECIMAL_COMMA: _(
        "a comma within a number parts it in two: write 6.5, or save the table with semicolons"
    ),
    tables.NOT_CARRIED: _("this piece also has what these columns cannot say: {joints}"),
    tables.PLAN_ITS_JOB: _(
        "plan its job file instead; or empty the cells under {columns:comma}, to have it "
        "cut without"
    ),
    tables.MADE_A_DATE: _("a spreadsheet has made a date of the {column}"),
    tables.AS_TEXT: _(
        "make the cell text before you write the fraction, or write it with a nought: 0 3/4"
    ),
    tables.SEVERAL: _("{column} says that there are several of this piece"),
    tables.ROW_FOR_EACH: _("write a row for each, with its own mark"),
    tables.NO_UNIT: _("unit is not in or mm"),
    tables.UNIT_IN_EVERY_ROW: _("write in or mm, the same in every row"),
    tables.OTHER_UNIT: _("another unit than in the first row"),
    tables.NO_MARK: _("a mark is a letter and up to five more letters and figures"),
    tables.MARK_LIKE: _("write one like A1"),
    tables.MARK_TAKEN: _("{mark} is already the mark in line {line}"),
    tables.OWN_MARK: _("give each piece its own mark"),
    tables.NO_END: _("{column} is not slot, tenon or empty"),
    tables.WRITE_END: _("write slot or tenon, or leave it empty"),
    tables.NO_SIDE: _("inside is not left, right or empty"),
    tables.WRITE_SIDE: _(
        "write left or right: where the inside edge lies, seen on the show face with end A up"
    ),
    tables.NOT_PRINTABLE: _("{column} cannot be printed"),
    tables.ONE_LINE: _("write one line of at most {most} plain characters"),
    tables.LACKS: _("the piece has no {column}"),
    tables.AS_SAWN: _("write it as the piece leaves the saw"),
    tables.NO_DEPTH: _("the {joint} at end {end} has no depth"),
    tables.HOW_DEEP: _("write how deep the slot is, or how long the tenon"),
    tables.DEPTH_ALONE: _("a depth without a joint at end {end}"),
    tables.JOINT_OR_NONE: _("write slot or tenon under {column}, or leave the depth out"),
    tables.NO_SLOT_WIDTH: _("a joint without a slot width"),
    tables.A_THIRD: _("write it under slot: about a third of the thickness"),
    tables.NOTHING_BETWEEN: _("the joints leave nothing between them"),
    tables.CHECK_DEPTHS: _("check the depths"),
    tables.SLOT_TOO_WIDE: _("a slot {width:file} wide leaves too little wood beside it"),
    tables.GROOVE_TOO_WIDE: _("a groove {width:file} wide leaves too little wood beside it"),
    tables.AT_MOST_HERE: _("this thickness allows at most {most:file}"),
    tables.NO_GROOVE_WIDTH: _("a groove without a width"),
    tables.NO_GROOVE_DEPTH: _("a groove without a depth"),
    tables.GIVE_BOTH: _("write both groove_width and groove_depth"),
    tables.GROOVE_TOO_DEEP: _("the groove is as deep as the piece is wide"),
    tables.MAKE_IT_LESS: _("make it shallower"),
    tables.TENON_TOO_WIDE: _("the piece has no room for a tenon of that width"),
    tables.TENON_AT_MOST: _("write at most {most:file}, what the groove leaves"),
    tables.NO_SLOT_TO_TRY: _(
        "no piece of this wood, thickness, slot and groove has a slot for the tenon"
    ),
    tables.ADD_A_SLOT: _("add the piece that it goes into, or a test piece to try it in"),
}
