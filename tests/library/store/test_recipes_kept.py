"""Every version that was saved is there; the trash gives back; nothing is lost between windows."""

import json
from dataclasses import asdict, fields, replace

import pytest

from designer.errors import RefusedInputError
from designer.library.recipe_file import document_text, read_document
from designer.library.store import Conflict, Store, Summary, Version
from designer.library.store.faults import NotInStoreError, StoreDamagedError
from designer.recipe.document import Recipe
from designer.recipe.limits import LONGEST_WORDS


def test_a_recipe_kept_is_there_word_for_word_after_the_box_was_closed(folder, porter_text, porter):
    with Store.open(folder) as store:
        made = store.recipes.add(porter_text, porter, name="first try", tags=["winter"])
    with Store.open(folder) as store:
        again = store.recipes.newest(made.recipe)
    assert again == made
    assert again.document == porter_text
    assert (again.number, again.name, again.summary) == (1, "first try", porter)


def test_every_saved_version_stays_and_can_be_read(box, kept, named, porter):
    for number in range(2, 6):
        base = box.recipes.newest(kept.recipe).id
        stronger = replace(porter, ibu=30.0 + number)
        box.recipes.save(kept.recipe, named(f"Porter {number}"), stronger, base=base)
    found = box.recipes.versions(kept.recipe)
    assert [row.number for row in found] == [5, 4, 3, 2, 1]
    assert [row.summary.ibu for row in found] == [35.0, 34.0, 33.0, 32.0, 34.4]
    assert box.recipes.version(found[-1].id).document == kept.document
    assert box.recipes.row(kept.recipe).name == "Porter 5"
    assert box.recipes.row(kept.recipe).versions == 5


def test_each_field_of_a_row_in_the_list_comes_from_the_column_of_its_name(box, kept, sql, porter):
    figures = {each.name: number for number, each in enumerate(fields(Summary), 20)}
    dated = {"trashed": "2026-03-02", "last_brewed": "2026-03-01", "branched_from": 9}
    facts = {"newest": 5, "count": 6, "made": "2026-01-01", "changed": "2026-02-01", "name": "One"}
    assert box.recipes.row(kept.recipe).summary == porter
    sets = ", ".join(f"{name} = '{value}'" for name, value in {**figures, **dated, **facts}.items())
    sql(box.path, f"update recipes set {sets}")
    found = box.recipes.row(kept.recipe)
    assert {name: float(value) for name, value in asdict(found.summary).items()} == figures
    assert {name: getattr(found, name) for name in dated} == dated
    assert found.versions == facts.pop("count")
    assert {name: getattr(found, name) for name in facts} == facts
    sql(box.path, "update recipes set trashed = null, last_brewed = null, branched_from = null")
    found = box.recipes.row(kept.recipe)
    assert (found.trashed, found.last_brewed, found.branched_from) == ("", "", 0)


def test_saving_on_an_older_version_keeps_both_and_names_both(box, kept, named, porter):
    theirs = box.recipes.save(kept.recipe, named("Theirs"), porter, base=kept.id)
    mine = box.recipes.save(kept.recipe, named("Mine"), porter, base=kept.id)
    assert isinstance(theirs, Version)
    assert isinstance(mine, Conflict)
    assert mine.theirs == theirs
    assert mine.mine.base == kept.id
    assert [box.recipes.version(v.id).document for v in box.recipes.versions(kept.recipe)] == [
        named("Mine"),
        named("Theirs"),
        kept.document,
    ]
    assert "version 2" in str(mine)
    assert "version 3" in str(mine)


def test_two_windows_that_save_the_same_text_are_in_no_conflict(box, kept, named, porter):
    first = box.recipes.save(kept.recipe, named("Same"), porter, base=kept.id)
    second = box.recipes.save(kept.recipe, named("Same"), porter, base=kept.id)
    assert second == first


def test_saving_again_what_is_there_adds_no_version_but_takes_the_name(box, kept, porter):
    again = box.recipes.save(kept.recipe, kept.document, porter, base=kept.id, name="for the fair")
    assert (again.id, again.name) == (kept.id, "for the fair")
    assert len(box.recipes.versions(kept.recipe)) == 1


def test_an_older_version_is_brought_back_as_a_new_one(box, kept, named, porter):
    box.recipes.save(kept.recipe, named("Spoilt"), porter, base=kept.id)
    back = box.recipes.bring_back(kept.id, name="as it was")
    assert (back.document, back.number, back.name) == (kept.document, 3, "as it was")
    assert len(box.recipes.versions(kept.recipe)) == 3


def test_a_branch_is_a_recipe_of_its_own_that_begins_with_a_version(box, kept, named, porter):
    box.tags.put([kept.recipe], add=["winter"])
    box.recipes.save(kept.recipe, named("Later"), porter, base=kept.id)
    branch = box.recipes.branch(kept.id, "Smoked Lamp Porter")
    row = box.recipes.row(branch.recipe)
    assert (row.name, row.branched_from, row.tags) == ("Smoked Lamp Porter", kept.id, ("winter",))
    assert box.recipes.row(kept.recipe).name == "Later"
    old, new = (read_document(v.document, "box") for v in (kept, branch))
    assert replace(new, name=old.name) == old


def test_a_duplicate_differs_in_its_name_alone(box, kept):
    copy = box.recipes.duplicate(kept.recipe)
    assert copy.document == kept.document.replace(
        "Harbour Lamp Porter", "Harbour Lamp Porter (copy)"
    )
    assert copy.recipe != kept.recipe


def test_a_document_laid_out_otherwise_is_duplicated_as_well(box, porter):
    flat = '{"hobwort":1,"hops":[{"name":"Saaz"}],"name":"Flat \\"one\\""}'
    made = box.recipes.add(flat, porter)
    copy = box.recipes.duplicate(made.recipe, "Other")
    assert read_document(copy.document, "box").name == "Other"
    assert read_document(copy.document, "box").hops == read_document(flat, "box").hops


def test_versions_can_be_named_later(box, kept):
    box.recipes.name_version(kept.id, "the good one")
    assert box.recipes.versions(kept.recipe)[0].name == "the good one"


def test_the_trash_hides_a_recipe_and_gives_it_back_whole(box, kept):
    box.trash.put([kept.recipe])
    assert box.finder.find("").rows == ()
    assert [row.id for row in box.finder.find("", trashed=True).rows] == [kept.recipe]
    assert (box.recipes.count(), box.recipes.count(trashed=True)) == (0, 1)
    box.trash.restore([kept.recipe])
    assert [row.id for row in box.finder.find("porter").rows] == [kept.recipe]
    assert box.recipes.newest(kept.recipe) == kept


def test_only_what_is_in_the_trash_can_be_deleted_for_good(box, kept):
    assert box.trash.delete([kept.recipe]) == 0
    box.trash.put([kept.recipe])
    assert box.trash.empty() == 1
    assert box.finder.find("porter", trashed=True).rows == ()
    with pytest.raises(NotInStoreError, match="deleted for good"):
        box.recipes.newest(kept.recipe)
    with pytest.raises(NotInStoreError, match="deleted for good"):
        box.recipes.version(kept.id)


def test_saving_a_recipe_that_another_window_deleted_keeps_it_anew(box, kept, named, porter):
    box.trash.put([kept.recipe])
    box.trash.empty()
    saved = box.recipes.save(kept.recipe, named("Still here"), porter, base=kept.id)
    assert box.recipes.row(saved.recipe).name == "Still here"


def test_saving_a_recipe_that_another_window_threw_away_takes_it_out(box, kept, named, porter):
    box.trash.put([kept.recipe])
    box.recipes.save(kept.recipe, named("Still here"), porter, base=kept.id)
    assert [row.name for row in box.finder.find("still").rows] == ["Still here"]


def test_tags_are_one_whatever_their_case(box, kept):
    box.tags.put([kept.recipe], add=["Session", "boat  race"])
    box.tags.put([kept.recipe], add=["session"], drop=["BOAT race"])
    assert box.recipes.row(kept.recipe).tags == ("session",)
    assert box.tags.all() == {"session": 1}


def test_many_recipes_are_added_in_one_go(box, named, porter):
    numbers = box.recipes.add_many((named(f"Ale {n}"), porter, ["many"]) for n in range(1203))
    assert len(set(numbers)) == box.recipes.count() == 1203
    assert box.recipes.row(numbers[700]).name == "Ale 700"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "holds nothing"),
        ("[1, 2]", "one JSON object"),
        ('{"name": NaN}', "NaN"),
        ("{", "not JSON"),
    ],
)
def test_a_text_that_is_no_recipe_is_refused_and_nothing_is_kept(box, porter, text, told):
    with pytest.raises(RefusedInputError, match=told):
        box.recipes.add(text, porter)
    assert box.recipes.count() == 0


def test_a_recipe_far_too_large_is_refused_in_words(box, named, porter):
    with pytest.raises(RefusedInputError, match="shorten its notes"):
        box.recipes.add(named("Novel", notes="x" * 5_000_001), porter)


def test_a_version_whose_text_changed_on_the_disk_is_not_shown_as_if_it_were_right(box, kept, sql):
    sql(box.path, "update versions set document = replace(document, '400 g', '900 g')")
    with pytest.raises(StoreDamagedError, match="Version 1"):
        box.recipes.newest(kept.recipe)


NAMES = [
    "Kölsch für Anna", "Пшеничное", "Μπίρα", "ビール樽", "黑啤酒", "맥주", "بيرة", "בירה", "เบียร์",
    "बीयर", "ბარლი", "🍺 Regatta", "a\u0301bc", "Robert'); drop table recipes;--",
    "<b>Bold</b> & <script>alert(1)</script>", "../../etc/passwd", "C:\\nul\\aux.", 'say "when"',
    "%s {0} $HOME `ls`", "x" * 10_000, "\u202eright to left", "tab\tand\nline", "half \ud83c pair",
    "nul\0sign",
]  # fmt: skip


@pytest.mark.parametrize("name", NAMES, ids=range(len(NAMES)))
def test_a_name_in_any_script_or_of_any_length_is_kept_listed_and_found(box, porter, name):
    made = box.recipes.add(json.dumps({"hobwort": 1, "name": name}), porter)
    assert json.loads(box.recipes.newest(made.recipe).document)["name"] == name
    shown = box.recipes.row(made.recipe).name
    assert shown == " ".join(name.replace("\0", "\ufffd").replace("\ud83c", "\ufffd").split())
    word = max(shown.replace('"', " ").split(), key=len)
    assert [row.id for row in box.finder.find(f'"{word}"').rows] == [made.recipe]
    copy = box.recipes.duplicate(made.recipe)
    assert json.loads(copy.document)["name"] == f"{shown} (copy)"
    assert box.recipes.count() == 2


def test_a_document_with_half_a_sign_written_raw_is_kept_as_json_writes_it(box, porter):
    raw = '{"hobwort": 1, "name": "half \ud83c sign"}'
    made = box.recipes.add(raw, porter)
    assert json.loads(made.document) == json.loads(raw)


def test_a_word_inside_a_name_without_spaces_is_found(box, porter):
    made = box.recipes.add('{"hobwort": 1, "name": "冬の黒ビール"}', porter)
    assert [row.id for row in box.finder.find("黒ビール").rows] == [made.recipe]


def test_a_copy_of_the_longest_name_can_be_opened_and_a_longer_name_is_refused(box):
    longest = document_text(Recipe(name=LONGEST_WORDS * "a"))
    kept = box.recipes.add(longest, Summary())
    copy = box.recipes.duplicate(kept.recipe)
    name = read_document(copy.document, "the copy").name
    assert len(name) == LONGEST_WORDS
    assert name.endswith(" (copy)")
    with pytest.raises(RefusedInputError, match="up to 20,000 characters are held"):
        box.recipes.branch(kept.id, (LONGEST_WORDS + 1) * "a")


def test_saving_the_same_again_without_a_name_leaves_the_name_that_it_has(box, porter_text, porter):
    kept = box.recipes.add(porter_text, porter, name="For the fair")
    again = box.recipes.save(kept.recipe, porter_text, porter, base=kept.id)
    assert (again.id, again.name) == (kept.id, "For the fair")


def test_changes_are_none_where_nothing_was_written_and_some_after(box, porter_text, porter):
    token = box.changes_since().token
    assert not box.changes_since(token)
    kept = box.recipes.add(porter_text, porter)
    found = box.changes_since(token)
    assert found
    assert found.keys("recipe") == {kept.recipe}
    assert box.changes_since("").everything
