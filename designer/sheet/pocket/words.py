"""All that the pocket page says by itself, in the language of the sheet.

The scripts know each sentence by its name here and put in what stands in braces.
"""

from __future__ import annotations

from designer.sheet.language import Language, message

WORDS = {
    # steps
    "to_the_steps": message("To the steps"),
    "steps_head": message("Steps"),
    "progress": message("Step {number} of {count}"),
    "all_done": message("All steps are done. Bring the log back to your computer, below."),
    "tick": message("done: {what}"),
    "done": message("Done, go on"),
    "start_it": message("Done: start {minutes} min"),
    "leave_out": message("Leave out…"),
    "leave_it_out": message("Leave it out"),
    "why_left_out": message("Why?"),
    "never_mind": message("Never mind"),
    "expected": message("→ about {time}"),
    "done_at": message("done {time}"),
    "left_out_at": message("left out {time}"),
    "left_out_because": message("left out {time}: {reason}"),
    "untick_stops_timer": message("Its timer stops too. Take the tick off?"),
    # timers
    "timers": message("Timers"),
    "boil": message("Boil"),
    "steep": message("Steep"),
    "stand": message("Stand"),
    "kept_hot": message("Kept hot"),
    "timer": message("Timer"),
    "over": message("{time} over"),
    "next": message("{what} in {time}"),
    "ends": message("ends {time}"),
    "paused": message("paused"),
    "boil_paused": message("Paused: burner off, its clock stands still."),
    "pause": message("Pause"),
    "resume": message("Resume"),
    "stop": message("Stop"),
    "change": message("Change"),
    "set_it": message("Set…"),
    "minute_more": message("+1 min"),
    "how_much_left": message("How many minutes are left?"),
    "stop_timer": message("Stop the timer “{name}”?"),
    "soon": message("In {minutes} min: {what}"),
    "now": message("Now: {what}"),
    "late": message("{time} late: do it now."),
    "time_is_up": message("Time is up: {name}"),
    "heard": message("Heard"),
    "good": message("All right"),
    "new_timer": message("New timer"),
    "minutes": message("Minutes"),
    "what_for": message("What for"),
    "start": message("Start the timer"),
    "minutes_wanted": message("Type minutes, such as 10."),
    "clock_back": message(
        "The phone’s clock was put back by {time}. The timers go on as they were."
    ),
    "clock_back_closed": message(
        "The phone’s clock was put back while this page was shut. Look at the timers and set them."
    ),
    "clock_forth": message("The phone slept for {time}. The timers have gone on."),
    "clock_was_set": message("No, its clock was put forward: put the timers right"),
    # readings and notes
    "forecast": message("forecast {value}"),
    "corrected": message("{value} at 20 °C:"),
    "no_number": message("This is no number. Write it like 6.1 or 6,1."),
    "as_forecast": message("as forecast"),
    "notes": message("Notes"),
    "note": message("Note"),
    "keep_note": message("Keep the note"),
    # the phone
    "sound_and_screen": message("Sound and screen"),
    "sound_on": message("Sound and buzz"),
    "sound_try": message("Try the sound"),
    "sound_tried": message("Two tones were played. Nothing heard? Turn the phone’s volume up."),
    "no_sound": message("This browser plays no sound here. Keep an eye on the timers."),
    "asleep": message(
        "While the screen is off, most phones play no sound. The timers are right again as soon as "
        "you look."
    ),
    "awake_on": message("Keep the screen on"),
    "screen_kept": message("The screen stays on while this page is in front."),
    "screen_free": message("The screen goes off as the phone is set."),
    "screen_not_kept": message(
        "This browser does not let the page keep the screen on here. Set the phone’s screen to go "
        "off late."
    ),
    "no_script": message(
        "No script runs here, so ticks, timers and readings are not kept. Open the file in a "
        "browser."
    ),
    "kept": message("· kept {time}"),
    "not_kept": message(
        "This browser keeps nothing of this page. Copy the text below before you close it, or all "
        "that you ticked and typed is gone."
    ),
    # bringing it back
    "bring_back": message("Back to the computer"),
    "how_back": message(
        "Send yourself this text or file and give it to Hobwort: Brew day, From the phone…"
    ),
    "show_code": message("Show the text"),
    "copy_code": message("Copy the text"),
    "save_code": message("Save as a file"),
    "code": message("The log of this brew"),
    "copied": message("Copied. Paste it into a mail or message to yourself."),
    "copy_by_hand": message("The text is marked: copy it by hand."),
    "saved": message("Saved where the browser keeps downloads."),
    "new_brew": message("New brew"),
    "new_brew_asks": message(
        "Begin a new brew? The log of this one stays in the browser, under Earlier brews."
    ),
    "earlier": message("Earlier brews"),
}


def words_of(spoken: Language) -> dict[str, str]:
    """Return all sentences in a language, with their braces as they are."""
    return {name: spoken.say(text) for name, text in WORDS.items()}
