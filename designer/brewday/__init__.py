"""The brew day: one stage-by-stage run of pot and fermenter that every number is read off."""
