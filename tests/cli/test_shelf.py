"""Set dances kept between runs: only what did not change is found again, and nothing that is kept is trusted."""
from __future__ import annotations

import os
from concurrent.futures import Executor
from pathlib import Path

import pytest
from invoking import HEAD, run, said

from notation.cli import bookwork, folder
from notation.cli.bookfiles import BookFile
from notation.cli.bookwork import set_dances
from notation.cli.shelf import ENDING, Shelf, entry_key, key_of, open_shelf
from notation.dance.mark import Said
from notation.page.units import paper
from notation.reading.layout import load_layout


def files(folder: Path, number: int = 3) -> list[BookFile]:
    made = []
    for n in range(number):
        path = folder / f"d{n}.yaml"
        path.write_text(HEAD.replace("title: T", f"title: Dance {n}"))
        made.append(BookFile(path, path.name, Said(path.name)))
    return made


def packed(of: list[BookFile], shelf: Shelf, pool: Executor | None = None) -> list[bytes | None]:
    return [done.packed for _, done in set_dances(of, load_layout("script"), paper("A5"), pool, shelf)]


@pytest.fixture
def worked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the dances that are really worked out."""
    names: list[str] = []
    was = bookwork.set_job

    def counted(job: bookwork.Job) -> bookwork.Done:
        names.append(Path(job.name).name)
        return was(job)

    monkeypatch.setattr(bookwork, "set_job", counted)
    return names


def test_only_changed_dances_are_worked_out_again(tmp_path: Path, worked: list[str]) -> None:
    shelf, dances = open_shelf(tmp_path / "kept"), files(tmp_path)
    first = packed(dances, shelf)
    assert worked == ["d0.yaml", "d1.yaml", "d2.yaml"] and None not in first
    assert packed(dances, shelf) == first and len(worked) == 3
    dances[1].path.write_text(dances[1].path.read_text().replace("Dance 1", "Dance One"))
    again = packed(dances, shelf)
    assert worked[3:] == ["d1.yaml"] and again[0] == first[0] and again[1] != first[1]


@pytest.mark.parametrize("harm", ["cut", "changed", "empty", "not ours"])
def test_damaged_entries_are_passed_over(harm: str, tmp_path: Path, worked: list[str]) -> None:
    shelf, dances = open_shelf(tmp_path / "kept"), files(tmp_path, 1)
    first = packed(dances, shelf)
    (kept,) = (tmp_path / "kept").glob(f"*{ENDING}")
    data = kept.read_bytes()
    kept.write_bytes({"cut": data[:-9], "changed": data[:-1] + b"!", "empty": b"", "not ours": b"x" * 999}[harm])
    assert packed(dances, shelf) == first and len(worked) == 2


def test_a_key_is_of_all_that_a_set_dance_depends_on(tmp_path: Path) -> None:
    layout, on = load_layout("script"), paper("A5")
    keys = {
        key_of(b"a", tmp_path, layout, on), key_of(b"b", tmp_path, layout, on),
        key_of(b"a", tmp_path, load_layout("teaching"), on), key_of(b"a", tmp_path, layout, paper("A4")),
    }
    (tmp_path / "own" / "figures").mkdir(parents=True)
    (tmp_path / "own" / "figures" / "mine.yaml").write_text("name: Mine\n")
    assert len(keys | {key_of(b"a", tmp_path / "own", layout, on)}) == 5


def test_a_folder_that_others_can_write_to_is_not_used(tmp_path: Path) -> None:
    open_to_all = tmp_path / "shared"
    open_to_all.mkdir()
    open_to_all.chmod(0o777)
    assert open_shelf(open_to_all).folder is None
    assert open_shelf(Path("/proc/nowhere")).folder is None


def test_what_was_not_used_longest_goes_first(tmp_path: Path) -> None:
    shelf = open_shelf(tmp_path / "kept")
    for n in range(4):
        shelf.keep(f"k{n}", bytes(1000), ())
        os.utime(tmp_path / "kept" / f"k{n}{ENDING}", (n, n))
    shelf.clear_out(3_000)
    assert {path.stem for path in (tmp_path / "kept").iterdir()} == {"k2", "k3"}


def test_findings_are_told_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LODESTEP_CACHE", str(tmp_path / "kept"))
    (tmp_path / "one.yaml").write_text(HEAD.replace("tempo: 30", "tempo: 70"))
    (tmp_path / "book.yml").write_text("title: T\ndances: [one.yaml]\n")
    first, second = (said(run("booklet", tmp_path / "book.yml")) for _ in range(2))
    assert "1 dance with warnings" in first and first == second


def test_dances_are_set_by_the_workers_of_a_cluster(tmp_path: Path) -> None:
    """By the executor of another library (dask.distributed), which knows nothing of this program."""
    distributed = pytest.importorskip("distributed")
    dances = files(tmp_path, 4)
    here = packed(dances, Shelf(None))
    with (
        distributed.LocalCluster(n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None) as cluster,
        distributed.Client(cluster) as client,
        client.get_executor() as pool,
    ):
        assert packed(dances, Shelf(None), pool) == here


def test_the_figures_of_a_writer_that_changed_are_noticed_in_one_process(tmp_path: Path) -> None:
    own = tmp_path / "figures"
    own.mkdir()
    keys = set()
    for text in ("name: One", "name: Two", "name: Three"):
        (own / "mine.yaml").write_text(text)
        keys.add(entry_key(b"a", tmp_path))
    assert len(keys) == 3


def test_figures_outside_the_folder_are_not_read(tmp_path: Path) -> None:
    inner = tmp_path / "season"
    (inner / "figures").mkdir(parents=True)
    before = entry_key(b"a", inner)
    (tmp_path / "away.yaml").write_text("name: Away")
    (inner / "figures" / "link.yaml").symlink_to(tmp_path / "away.yaml")
    os.mkfifo(inner / "figures" / "pipe.yaml")
    assert entry_key(b"a", inner) == before


def test_entries_of_a_catalogue_are_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shelf, dances = open_shelf(tmp_path / "kept"), tmp_path / "dances"
    dances.mkdir()
    files(dances)
    (dances / "bad.yaml").write_text("title: Bad\nsequence: [")
    names: list[str] = []
    was = folder.file_entry

    def counted(name: str) -> folder.Made | None:
        names.append(Path(name).name)
        return was(name)

    monkeypatch.setattr(folder, "file_entry", counted)
    first = folder.catalogue(dances, shelf)
    assert len(first) == 4 and len(names) == 4 and first[0].fault
    assert folder.catalogue(dances, shelf) == first and len(names) == 4
    (dances / "d1.yaml").write_text((dances / "d1.yaml").read_text().replace("Dance 1", "Dance One"))
    (dances / "d0.yaml").rename(dances / "d9.yaml")
    again = folder.catalogue(dances, shelf)
    assert names[4:] == ["d1.yaml"] and [entry.title for entry in again[1:]] == ["Dance One", "Dance 2", "Dance 0"]
    assert again[3].file.endswith("d9.yaml")
    for kept in (tmp_path / "kept").iterdir():
        kept.write_bytes(b"harm")
    assert folder.catalogue(dances, shelf) == again and len(names) == 9
