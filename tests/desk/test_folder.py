"""Nothing is read or written outside the folder of the desk, and nothing that was typed is lost."""
from pathlib import Path

import pytest

from notation import bounds
from notation.desk.folder import KEPT, Changed, Folder, Refused, digest


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    root = tmp_path / "dances"
    root.mkdir()
    (root / "a.yaml").write_text("title: A\nsequence: []\n")
    (tmp_path / "secret.yaml").write_text("title: S\nsequence: []\n")
    return Folder(root, lambda path, data: (path.write_bytes(data), None)[1])


@pytest.mark.parametrize("name", [
    "../secret.yaml", "x/../../secret.yaml", "/etc/passwd.yaml", "a.txt", ".hidden.yaml", "x//a.yaml", "", "./a.yaml",
    "a\x00.yaml", "..\\secret.yaml", "c:a.yaml", f".lodestep-desk/{'a'}.yaml", "x" * 300 + ".yaml",
])
def test_names_that_lead_out_are_refused(folder: Folder, name: str) -> None:
    for tried in (folder.read, lambda n: folder.save(n, b"x", ""), lambda n: folder.keep_draft(n, "x", "", 0)):
        with pytest.raises(Refused):
            tried(name)


def test_links_that_lead_out_are_refused(folder: Folder) -> None:
    (folder.root / "b.yaml").symlink_to(folder.root.parent / "secret.yaml")
    (folder.root / "out").symlink_to(folder.root.parent)
    for name in ("b.yaml", "out/secret.yaml"):
        with pytest.raises(Refused):
            folder.read(name)
        with pytest.raises(Refused):
            folder.save(name, b"x", "", over=True)
    assert [one["name"] for one in folder.dances()] == ["a.yaml"]
    (folder.root / KEPT).symlink_to(folder.root.parent)
    with pytest.raises(Refused):
        folder.keep_draft("a.yaml", "x", "", 0)


def test_a_changed_file_is_not_written_over_unasked(folder: Folder) -> None:
    opened = digest(folder.read("a.yaml"))
    (folder.root / "a.yaml").write_text("title: theirs\n")
    with pytest.raises(Changed):
        folder.save("a.yaml", b"title: mine\n", opened)
    assert folder.read("a.yaml") == b"title: theirs\n"
    folder.save("a.yaml", b"title: mine\n", opened, over=True)
    assert folder.read("a.yaml") == b"title: mine\n"
    assert [p.read_text() for p in (folder.root / KEPT).glob("a-*.yaml")] == ["title: theirs\n"]


def test_drafts_stay_until_saved(folder: Folder) -> None:
    opened = digest(folder.read("a.yaml"))
    folder.keep_draft("a.yaml", "title: typed\n", opened, 5.0)
    kept = Folder(folder.root, folder.write).draft("a.yaml")
    assert kept and (kept["text"], kept["base"]) == ("title: typed\n", opened)
    folder.save("a.yaml", b"title: typed\n", opened)
    assert folder.draft("a.yaml") is None


def test_bounds_of_the_list_are_told(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    """DESK_FILES, DESK_DEPTH and DESK_NAME: what is not listed or not taken is said in the bound's own words."""
    assert folder.dances() and not folder.met
    (folder.root / "1/2/3/4/5").mkdir(parents=True)
    folder.dances()
    assert folder.met == {bounds.DESK_DEPTH}
    monkeypatch.setattr("notation.desk.folder.DESK_FILES", bounds.Bound(1, bounds.DESK_FILES.message))
    assert len(folder.dances()) == 1 and bounds.Bound(1, bounds.DESK_FILES.message) in folder.met
    with pytest.raises(Refused, match=bounds.DESK_NAME.words[:40]):
        folder.read("x" * bounds.DESK_NAME.most + ".yaml")
