"""What is wrong with a shaped top rail, and what would do."""

from __future__ import annotations

from sequencer.facts.model import LENGTH, TEXT, Domain

kind_of = Domain("shape")

RISE_OR_STRAIGHT = kind_of("rise-or-straight")
NO_KIND = kind_of("no-kind")
RISE_MISSING = kind_of("rise-missing", shape=TEXT)
WRITE_RISE = kind_of("write-rise", example=TEXT)
ON_SLAB = kind_of("on-slab")
LEAVE_SHAPE_OUT = kind_of("leave-shape-out")
FLAT_PANEL_ALONE = kind_of("flat-panel-alone")
STRAIGHT_OR_NO_FILL = kind_of("straight-or-no-fill")
JOINT_UNSUITED = kind_of("joint-unsuited", joint=TEXT)
MULLION_ON_SLOPE = kind_of("mullion-on-slope")
MULLIONS_BELOW = kind_of("mullions-below")
TOO_FLAT = kind_of("too-flat", rise=LENGTH)
LESS_FLAT = kind_of("less-flat", least=LENGTH)
TOO_STEEP = kind_of("too-steep", rise=LENGTH, span=LENGTH)
LESS_STEEP = kind_of("less-steep", most=LENGTH)
