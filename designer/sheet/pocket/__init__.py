"""The sheet in the pocket: one self-contained page for a phone's browser.

What is brewed stands in the page as plain HTML, which prints and can be read where no script runs;
the scripts of `resources/pocket` let its steps be ticked, its timers run and its readings be kept.
"""
