"""Beer into bottles or a keg: sugar, pressure against what bottles bear, counts, dates."""
