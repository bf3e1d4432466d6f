"""Facts of the trade: tables with their sources beside them, and readers; no logic."""
