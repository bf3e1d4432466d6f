"""The toolkit of cuts: what an operation is, and how channels and tenons are cut in passes.

Joints and operations are built from it; it knows of no door.
"""
