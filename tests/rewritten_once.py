"""The assertions of all files of tests, rewritten once before several processes read them.

pytest rewrites them where a file is first loaded, and keeps what it made of it. Processes that
load all files at once would each do that for every file, which takes them longer than all else of
loading.
"""

import os
import sys
from pathlib import Path

import pytest
from _pytest.assertion import rewrite
from _pytest.assertion.rewrite import assertstate_key  # Nothing of pytest's own tells this.


def rewrite_once(config: pytest.Config) -> None:
    """Let each core of this machine rewrite its part of the files that are going to be loaded."""
    if sys.dont_write_bytecode or not hasattr(os, "fork"):
        return
    files = [each for each in _files(config) if rewrite._read_pyc(each, _kept(each)) is None]
    files.sort(key=lambda each: each.stat().st_size)
    hands = os.cpu_count() or 1
    children = []
    for hand in range(hands):
        child = os.fork()
        if not child:
            try:
                for file in files[hand::hands]:
                    _rewrite(file, config)
            finally:
                os._exit(0)  # What is not there is made by who loads it, and any fault is told.
        children.append(child)
    for child in children:
        os.waitpid(child, 0)


def _files(config: pytest.Config) -> list[Path]:
    asked = [Path(each.partition("::")[0]) for each in config.args]
    files = [each for each in asked if each.is_file()]
    for folder in filter(Path.is_dir, asked):
        files += [*folder.rglob("test_*.py"), *folder.rglob("conftest.py")]
    return files


def _kept(file: Path) -> Path:
    return rewrite.get_cache_dir(file.resolve()) / (file.stem + rewrite.PYC_TAIL)


def _rewrite(file: Path, config: pytest.Config) -> None:
    kept = _kept(file)
    kept.parent.mkdir(parents=True, exist_ok=True)
    digest, code = rewrite._rewrite_test(file.resolve(), config)
    rewrite._write_pyc(config.stash[assertstate_key], code, digest, kept)
