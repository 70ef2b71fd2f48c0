"""Every name of a recipe makes a name of a file."""

import unicodedata

import pytest

from designer.library.file_names import file_name

NAMES = (
    "Harbour Lamp Porter",
    "../../etc/passwd",
    "C:\\con",
    "CON",
    "com1",
    "nul",
    "-rf *",
    "नमस्ते पोर्टर",
    "เบียร์ดำ",
    "بيرة سوداء",
    "黒ビール",
    "'; drop table recipes; --",
    "<b>Bold & bright</b>",
    "\N{RIGHT-TO-LEFT OVERRIDE}live.exe",
    "one\ntwo\0three\ud800",
    "\N{BEER MUG}",
    "...",
    "",
)
LONG = ("Ale " * 2500, "黒" * 10_000, "\N{GOTHIC LETTER AHSA}" * 10_000, "e\u0301" * 5000)


@pytest.mark.parametrize("name", [*NAMES, *LONG], ids=range(len(NAMES) + len(LONG)))
def test_every_name_makes_a_file_that_every_system_takes(name, tmp_path):
    made = file_name(name)
    assert made
    assert len(made.encode("utf-8")) <= 200
    assert not set(made) & set('/\\:*?"<>|.\0\n\r\t ')
    assert made[0] != "-"
    assert made not in ("con", "com1", "nul")
    assert not any(unicodedata.category(sign) in ("Cc", "Cf", "Cs") for sign in made)
    (tmp_path / f"{made}-200.hobwort").write_text("x", "utf-8")


def test_signs_of_other_scripts_stay_whole():
    assert file_name("नमस्ते पोर्टर") == "नमस्ते_पोर्टर"
    assert file_name("เบียร์ดำ") == "เบียร์ดำ"
    assert file_name("Bière Brune, No. 3") == "bière_brune_no_3"
    assert file_name("CON") == "recipe_con"
