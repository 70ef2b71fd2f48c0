"""Text and files from elsewhere, changed by chance: whatever is in them, they are taken or refused.

`python -m tests.fuzz` tries each target for a while with the fuzzer atheris, in a process of its
own with bounded memory; `targets.py` says what is tried, `guard.py` what must never happen.
"""
