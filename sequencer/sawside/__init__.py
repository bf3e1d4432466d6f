"""The plan followed at the saw: a page for the phone, what was ticked and measured, never lost."""
