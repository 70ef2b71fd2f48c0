"""The words of the commands, a module for each group of them; `usage.py` tells which has which.

They are said in the user's language: a parser is made once the catalogue is set.
"""
