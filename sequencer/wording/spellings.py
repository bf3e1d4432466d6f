"""What is wrong with a text that is no length, and how a length is written."""

from __future__ import annotations

from sequencer.facts import spellings
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    spellings.NO_LENGTH: _("no length is given"),
    spellings.TOO_LONG: _("longer than {most} characters"),
    spellings.STRANGE_SPACE: _("a tab or a special space: use the space bar"),
    spellings.NEGATIVE: _("a length cannot be negative"),
    spellings.PLUS_SIGN: _("a length has no plus sign"),
    spellings.COMMA: _("a comma is not read: it could mark thousands or decimals"),
    spellings.POWER_OF_TEN: _("powers of ten are not read"),
    spellings.SPACE_AT_BAR: _("no space goes beside the fraction bar"),
    spellings.TWO_JOINS: _("one hyphen or one space joins a whole number and its fraction"),
    spellings.POINT_FIRST: _("a decimal needs a digit before its point"),
    spellings.SECOND_POINT: _("a second decimal point"),
    spellings.POINT_LAST: _("a decimal needs a digit after its point"),
    spellings.DECIMAL_AND_FRACTION: _("a decimal and a fraction in one number"),
    spellings.SECOND_BAR: _("a second fraction bar"),
    spellings.OVER_NOTHING: _("the number under the fraction bar cannot be 0"),
    spellings.OF_NOTHING: _("the number over the fraction bar cannot be 0"),
    spellings.LEADING_NOUGHT: _("a number does not begin with 0"),
    spellings.UNIT_NAME: _("a unit is written in, \", ', mm or cm"),
    spellings.PART_OF_A_FOOT: _("feet are whole, with inches after them"),
    spellings.TWO_UNITS: _("two units for one number"),
    spellings.NO_NUMBER: _("a length begins with a number"),
    spellings.TWO_NUMBERS: _("two numbers where one length belongs"),
    spellings.AFTER_LENGTH: _("'{rest}' after the length cannot be read"),
    spellings.MM_FRACTION: _("millimetres take no fraction"),
    spellings.NOT_ON_RULES: _("no rule is divided in parts of 1/{parts}"),
    spellings.NOT_BELOW_ONE: _("the fraction {fraction} is not smaller than 1"),
    spellings.FEET_AND_MM: _("feet go with inches"),
    spellings.INCHES_UNMARKED: _("the inches after the feet need their mark"),
    spellings.TWELVE_INCHES: _("12 inches or more after the feet"),
    spellings.LIKE: _("write it like {example}"),
    spellings.WRITE: _("write {text}"),
    spellings.WRITE_EITHER: _("write {text} or {other}"),
    spellings.WRITE_ROUGH: _("write {text} (rough stock goes by that name: measure it)"),
    spellings.WRITE_NEAREST: _("write {text}, or the nearest 64th, {nearest}"),
    spellings.WRITE_DECIMAL: _("write a decimal"),
    spellings.WRITE_OR_INCHES: _("write {text}, or {inches} if you mean inches"),
    spellings.WRITE_DECIMAL_OR_INCHES: _("write a decimal, or {inches} if you mean inches"),
    spellings.TYPED: _("{text}: {message}: {hint}"),
}
