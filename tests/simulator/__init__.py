"""An independent simulator: it walks the printed order of a `plan.json` over all physical pieces.

It shares nothing with the rules that refuse or warn, nor with the proof: it reads the plan's JSON
as any other program could, has wood and geometry of its own (`wood`), keeps what stands where at
the saw for every pass (`walk`), and holds each pass against a table of predicates taken from
published guidance (`table`), each with its source.
"""
