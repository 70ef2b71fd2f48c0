"""Numpy does all it does, without what is loaded beside it."""

from __future__ import annotations

import subprocess
import sys

PLAINLY = """
import os, sys
os.environ.pop("OPENBLAS_NUM_THREADS", None)
from designer.plain_numpy import NOT_ASKED, WAITING, expect_numpy
expect_numpy()
import numpy as np
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.resource_files import resource_path
look_ahead(load(resource_path("examples/harbour_lamp_porter.hobwort")))
waits = lambda name: "OnceAsked" in type(sys.modules[name]).__name__
print(*[each for each in (*NOT_ASKED, *WAITING) if not waits(each)])
print(os.environ["OPENBLAS_NUM_THREADS"])
import pickle
from numpy.typing import ArrayLike, NDArray
grams = np.array([20.0, 25.0])
print((pickle.loads(pickle.dumps(grams)) == grams).all(), grams.ctypes.data > 0,
      NDArray is not list, np.linalg.eigh(np.eye(2)).eigenvalues.sum())
"""


def test_a_forecast_with_ranges_asks_for_none_of_what_waits_and_it_is_there_once_asked_for():
    done = subprocess.run(
        [sys.executable, "-c", PLAINLY], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    loaded, threads, told = done.stdout.splitlines()
    assert loaded == ""
    assert threads == "1"
    assert told.split() == ["True", "True", "True", "2.0"]
