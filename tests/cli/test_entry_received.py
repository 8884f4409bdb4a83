"""Folders of strangers: an entry that comes from outside leads nowhere, keeps nobody waiting and takes no room."""
from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from invoking import EXAMPLES, SAUNTER, run, said

from notation import bounds

COMPETITION = EXAMPLES / "competition"
MANIFEST = "manifest.txt"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("sound") / "entry"
    done = run("entry", SAUNTER, "--rules", COMPETITION / "rules.yaml", "--particulars",
               COMPETITION / "particulars.yaml", "--into", folder, "--on", "2027-03-01")
    assert done.exit_code == 0, said(done)
    return folder


@pytest.fixture
def received(made: Path, tmp_path: Path) -> Path:
    folder = tmp_path / "entry"
    folder.mkdir()
    for path in made.iterdir():
        (folder / path.name).write_bytes(path.read_bytes())
    return folder


def verified(folder: Path, status: int) -> str:
    """What both commands that take a received entry say; nothing is ever written."""
    into = folder.parent / "collated"
    for words in (("--verify", folder), ("--collate", folder, "--into", into)):
        result = run("entry", *words)
        assert result.exit_code == status, said(result)
        assert not into.exists() and "Traceback" not in said(result)
    return said(result)


def linked(folder: Path, name: str) -> None:
    (folder / name).unlink()
    (folder / name).symlink_to("/etc/hostname")


def piped(folder: Path, name: str) -> None:
    (folder / name).unlink()
    os.mkfifo(folder / name)


def nested(folder: Path, name: str) -> None:
    (folder / name).unlink()
    (folder / name).mkdir()


@pytest.mark.parametrize("spoil", [linked, piped, nested])
@pytest.mark.parametrize("name", [MANIFEST, "dance.yaml", "judges.pdf", "rules.yaml"])
def test_nothing_but_plain_files_is_read(received: Path, spoil: object, name: str) -> None:
    spoil(received, name)  # type: ignore[operator]
    assert f"'{name}' is no plain file" in verified(received, 2)


def test_a_folder_of_figures_that_is_a_link(received: Path) -> None:
    (received / "figures").symlink_to("/etc")
    assert "'figures' is no plain file" in verified(received, 2)


def test_a_link_among_the_figures(received: Path) -> None:
    (received / "figures").mkdir()
    (received / "figures" / "a.yaml").symlink_to("/etc/hostname")
    assert "'a.yaml' is no plain file" in verified(received, 2)


def test_figures_within_figures(received: Path) -> None:
    (received / "figures" / "figures").mkdir(parents=True)
    assert "'figures' is no plain file" in verified(received, 2)


def test_names_in_a_manifest_lead_nowhere(received: Path) -> None:
    (received.parent / "outside.txt").write_text("secret")
    names = ["../outside.txt", "/etc/hostname", "figures/../../outside.txt", "..", "a\\b"]
    lines = "".join(f"{'0' * 64}  {name}\n" for name in names)
    (received / MANIFEST).write_text((received / MANIFEST).read_text() + lines)
    words = verified(received, 1)
    assert all(f"'{name}' is missing" in words for name in names) and "secret" not in words


def test_too_many_files(received: Path) -> None:
    for number in range(bounds.ENTRY_FILES.most):
        (received / f"{number}.txt").touch()
    assert bounds.ENTRY_FILES.words in verified(received, 2)


def test_a_file_too_large(received: Path) -> None:
    with (received / "judges.pdf").open("r+b") as file:
        file.truncate(bounds.ENTRY_FILE_BYTES.most + 1)
    assert f"'judges.pdf': {bounds.ENTRY_FILE_BYTES.words}" in verified(received, 2)


@pytest.mark.parametrize("text", ["", "\x00" * 400, "\x1b[2Jx", "# day 9999-99-99\n", "x" * 3_000_000],
                         ids=["empty", "zeros", "terminal", "day", "large"])
def test_a_manifest_that_is_none(received: Path, text: str) -> None:
    (received / MANIFEST).write_text(text)
    result = run("entry", "--verify", received)
    assert result.exit_code in (1, 2) and "\x1b" not in said(result) and len(said(result)) < 5_000


@pytest.mark.parametrize("old, new", [("Ferry Lane", "Fairy Lane"), ("Edith Marlow", "Maud Ferrier")])
def test_a_dance_that_was_changed_afterwards(received: Path, old: str, new: str) -> None:
    """Also where the digest in the manifest was changed with it."""
    from hashlib import sha256

    dance = received / "dance.yaml"
    before = sha256(dance.read_bytes()).hexdigest()
    dance.write_text(dance.read_text().replace(old, new))
    manifest = received / MANIFEST
    manifest.write_text(manifest.read_text().replace(before, sha256(dance.read_bytes()).hexdigest()))
    assert "'particulars.pdf' is not what dance.yaml and the particulars give" in verified(received, 1)


def test_rules_of_its_own_that_let_names_be_seen(received: Path, tmp_path: Path) -> None:
    """With the organiser's rules named, an entry made by others is refused."""
    mild = tmp_path / "mild.yaml"
    mild.write_text((COMPETITION / "rules.yaml").read_text().replace("names: no", "names: yes"))
    own = tmp_path / "own"
    assert run("entry", SAUNTER, "--rules", mild, "--particulars", COMPETITION / "particulars.yaml", "--into", own,
               "--on", "2027-03-01").exit_code == 0
    result = run("entry", "--verify", own, "--rules", COMPETITION / "rules.yaml")
    assert result.exit_code == 1 and "the rules in the entry are not yours" in said(result)
    result = run("entry", "--collate", received, own, "--rules", COMPETITION / "rules.yaml", "--into", tmp_path / "c")
    assert result.exit_code == 1 and not (tmp_path / "c").exists()


@pytest.mark.parametrize("name", ["D'Amour step.yaml", "pas (slow) + été.yaml"])
def test_a_writers_own_figure_goes_with_the_entry(tmp_path: Path, name: str) -> None:
    """Under any name that its file has; the entry is whole where it arrives."""
    dances = tmp_path / "dances"
    (dances / "figures").mkdir(parents=True)
    source = (Path(__file__).parents[2] / "notation" / "figures" / "pas-de-valse.yaml").read_text()
    own = re.sub(r"(?m)^name: .*$", "name: shore valse", re.sub(r"(?m)^also: .*\n", "", source))
    (dances / "figures" / name).write_text(own)
    (dances / "figures" / "not-called.yaml").write_text(own.replace("shore valse", "other valse"))
    waltz = (EXAMPLES / "lantern-quay-waltz.yaml").read_text()
    assert "gent: pas de valse," in waltz
    (dances / "d.yaml").write_text(waltz.replace("gent: pas de valse,", "gent: shore valse,"))
    into = tmp_path / "entry"
    result = run("entry", dances / "d.yaml", "--rules", COMPETITION / "rules.yaml", "--particulars",
                 COMPETITION / "particulars.yaml", "--into", into, "--on", "2027-03-01")
    assert result.exit_code == 0, said(result)
    assert [path.name for path in (into / "figures").iterdir()] == [name]
    assert run("entry", "--verify", into).exit_code == 0
