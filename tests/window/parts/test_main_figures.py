"""Figures leave out their bands only where they need two lines and the room is wanted."""

from designer.window.parts.main_figures import MainFigures


def test_bands_give_way_where_figures_take_two_lines(qtbot):
    made = MainFigures(with_bands=True)
    qtbot.addWidget(made)
    for key, label in made.figures.items():
        label.setText("1.046")
        made.bands[key].setText("1.042 to 1.048")
    made.resize(900, 60)
    made.show()
    for width, wanted, shown in (
        (900, True, True), (200, True, False), (200, False, True), (900, True, True),
    ):  # fmt: skip
        made.resize(width, 60)
        made.make_room(wanted)
        assert all(each.isVisibleTo(made) is shown for each in made.bands.values())
