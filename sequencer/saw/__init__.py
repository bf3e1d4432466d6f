"""The language of the saw: settings, operations and measures as types with one text form each, and
one row for each knob, carrier and kind of step.

Other stages compare what stands here and read its columns; none takes a text apart. The `proof`
knows none of it.
"""
