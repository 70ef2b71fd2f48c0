"""`hobwort guide`: contents, a page, the whole as a file, and what is refused."""

import pytest

from designer.command_line import run
from designer.workbench.guide import guide


def said(capsys, *words):
    code = run(["guide", *words])
    out, err = capsys.readouterr()
    return code, out, err


def test_contents_a_page_and_a_web_page(capsys, tmp_path):
    code, out, _ = said(capsys)
    assert code == 0
    assert "  fit " in out
    code, out, _ = said(capsys, "safety")
    assert code == 0
    assert "! Take care:" in out
    assert max(map(len, out.splitlines())) <= 100
    code, out, _ = said(capsys, "-o", str(tmp_path / "guide.html"))
    assert code == 0
    assert "<section" in (tmp_path / "guide.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["nowhere"], 1, "Its pages are: own_recipe"),
        (["-o", "{folder}/guide.docx"], 1, ".html, .htm, .pdf"),
        (["-o", "{folder}/there.pdf"], 1, "something else than its name says"),
        (["fit", "-o", "{folder}/guide.pdf"], 2, "leave PAGE out"),
        (["--language", "xx"], 2, "xx"),
    ],
)
def test_refused_with_a_way_out(capsys, tmp_path, words, code, told):
    (tmp_path / "there.pdf").write_bytes(b"no guide")
    words = [each.format(folder=tmp_path) for each in words]
    found, out, err = said(capsys, *words)
    assert found == code
    assert out == ""
    assert told in err
    assert [path.name for path in tmp_path.iterdir()] == ["there.pdf"]


@pytest.mark.parametrize("code", ["en", "de", "fr"])
def test_a_page_is_found_by_its_name_or_title_however_that_is_written(capsys, code):
    found = guide(code)
    for page in found.pages():
        assert found.page(page.name.upper()) is page
        assert found.page(page.title.upper()) is page
    assert said(capsys, "SAFETY") == said(capsys, "safety")
