"""An independent reading and recomputation of a planned job, for `check_program.py`."""
