"""Run in a bundle before the program: what it starts is not led to the bundle's libraries.

The start of a bundle names the folder of its libraries in the environment, from where that would go
on to the desktop's own programs (the one that opens a folder, the one that shows a message). It has
served when this is run. Hobwort itself, started once more by Hobwort, is to find it anew.
"""

import os

NAME = "LD_LIBRARY_PATH"
before = os.environ.pop(f"{NAME}_ORIG", None)
if before is None:
    os.environ.pop(NAME, None)
else:
    os.environ[NAME] = before
os.environ["PYINSTALLER_RESET_ENVIRONMENT"] = "1"
