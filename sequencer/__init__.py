"""A table-saw setup sequencer: from a job file of doors to proven, printed operation sheets."""
