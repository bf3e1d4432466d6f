"""Settings that worked, found again; near misses, gauges worth making, pieces cut again."""
