"""What is told of a plan's steps alike on paper and page: how pieces lie, what is done at the
bench, and figures as they are shown."""
