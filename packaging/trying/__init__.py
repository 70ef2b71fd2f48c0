"""What is handed out, tried as those would to whom it is handed; `try_packages.py` starts it."""
