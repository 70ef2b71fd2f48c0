"""A process that has loaded the program and all tests of a package, and forks for each change."""

import gc
import os
from collections import defaultdict
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from _pytest.runner import runtestprotocol

from tests.mutation.nearest import file_of
from tests.mutation.reached import Looking, keep, kept_at
from tests.mutation.tried import LOADED_BEFORE


class Warm:
    """Holds pytest where it would run the tests, and does something else with them."""

    def __init__(self, work: Callable[[Sequence[pytest.Item]], None]) -> None:
        self._work = work

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Work with what was collected."""
        if session.testsfailed:
            raise pytest.UsageError("the tests cannot all be loaded")
        gc.collect()
        self._work(session.items)
        return True


def in_warm_process(
    files: Sequence[Path], work: Callable[[Sequence[pytest.Item]], None], told: str
) -> None:
    """Collect files of tests in a process of its own and work there; raise if it fails."""
    child = os.fork()
    if not child:
        status = 1
        try:
            quiet = os.open(told, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            words = ["-q", "-s", "-p", "no:cacheprovider", *LOADED_BEFORE, *map(str, files)]
            status = int(pytest.main(words, plugins=[Warm(work)]))
        finally:
            os._exit(status)
    _, status = os.waitpid(child, 0)
    if os.waitstatus_to_exitcode(status):
        raise RuntimeError(f"pytest ended with {os.waitstatus_to_exitcode(status)}, see {told}")


def look_at_all(
    collected: Sequence[pytest.Item],
    here: Path,
    package: str,
    modules: Sequence[Path],
    at_once: int,
) -> None:
    """Look which lines the tests run, unchanged, for each file of which nothing is kept."""
    by_file: dict[str, list[pytest.Item]] = defaultdict(list)
    for each in collected:
        by_file[file_of(each.nodeid)].append(each)

    def look(file: str) -> None:
        where = kept_at(here, package, here / file)
        if where.exists():
            return
        child = os.fork()
        if child:
            os.waitpid(child, 0)
            return
        status = 1
        try:
            _look(by_file[file], modules, where)
            status = 0
        finally:
            os._exit(status)

    with ThreadPoolExecutor(at_once) as pool:
        list(pool.map(look, by_file))


def _look(items: Sequence[pytest.Item], modules: Sequence[Path], where: Path) -> None:
    looking, seen = Looking(modules), []
    for item, following in zip(items, [*items[1:], None], strict=True):
        looking.begin()
        reports = runtestprotocol(item, log=False, nextitem=following)
        one = looking.end(item.nodeid)
        if all(each.passed for each in reports):
            seen.append(one)
    keep(where, seen)
