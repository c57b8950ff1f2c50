"""The pictures of the drawings are what their tool draws."""


def test_the_pictures_are_up_to_date(tool, root):
    drawn = tool("draw_drawings").pictures()
    assert set(drawn) == {
        "elevation.svg",
        "section.svg",
        "fabric.svg",
        "jamb.svg",
        "meeting-rails.svg",
    }
    for name, picture in drawn.items():
        lies_there = (root / "docs/pictures" / name).read_text(encoding="utf-8")
        assert lies_there == picture, "run: python -m tools.draw_drawings"


def test_main_writes_the_pictures(tool, tmp_path, monkeypatch):
    module = tool("draw_drawings")
    monkeypatch.setattr(module, "PICTURES", tmp_path / "pictures")
    module.main()
    written = {file.name: file.read_text(encoding="utf-8") for file in tmp_path.rglob("*.svg")}
    assert written == module.pictures()
