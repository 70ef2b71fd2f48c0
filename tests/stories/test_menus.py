"""The menus: what they tell of keys."""

from PySide6.QtGui import QKeySequence

from designer.workbench.keys import KEYS


def entries(window):
    """All entries of the menus, those of sub-menus too."""
    found, menus = [], [each.menu() for each in window.menuBar().actions()]
    while menus:
        for action in menus.pop(0).actions():
            if action.menu() is not None:
                menus.append(action.menu())
            elif not action.isSeparator():
                found.append(action)
    return found


def test_each_key_of_the_menus_is_in_the_list_of_keys(on_a_box, opened):
    window = on_a_box(opened)
    listed = {key for keys, _ in KEYS for key in keys}
    shown = {
        key.toString(QKeySequence.SequenceFormat.PortableText)
        for action in entries(window)
        for key in action.shortcuts()
    }
    assert shown <= listed
    assert len(shown) > 20
