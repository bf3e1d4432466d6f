"""What is printed the night before and lies beside the saw: HTML, PDF and the parts list."""

from sequencer.sheets.render import Paper, html, pdf
from sequencer.sheets.tables import parts_csv

__all__ = ["Paper", "html", "parts_csv", "pdf"]
