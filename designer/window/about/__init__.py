"""About Hobwort: the program itself, whose figures it has, and whose work it is made of."""
