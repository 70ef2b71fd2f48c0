"""Fermenting and packaging: readings against the forecast, whether it is done, bottles or keg."""
