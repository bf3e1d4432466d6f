"""Between operations and plan: the ordering problem, and the order laid out as setups and steps."""
