"""A desk that runs: what it answers and what it refuses over a real socket."""
import http.client
import json
import shutil
import signal
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
from desking import EXAMPLES, Desk, desk

SAUNTER = "ferry-lane-saunter.yaml"


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Desk, Path]]:
    folder = tmp_path_factory.mktemp("dances")
    for path in EXAMPLES.glob("*.yaml"):
        shutil.copy(path, folder)
    with desk(folder) as made:
        yield made, folder


def test_lists_opens_and_knows_words(running: tuple[Desk, Path]) -> None:
    made, _ = running
    _, said = made.ask("dances", {})
    assert SAUNTER in [one["name"] for one in said["dances"]]  # type: ignore[attr-defined]
    _, opened = made.ask("open", {"name": SAUNTER})
    assert opened["text"] == (EXAMPLES / SAUNTER).read_text()
    _, words = made.ask("words", {"name": SAUNTER})
    assert "closed" in words["holds"] and "whisk" in [w.lower() for w in words["figures"]]  # type: ignore[attr-defined, operator]


def test_sets_pages_and_floor_and_pdf(running: tuple[Desk, Path]) -> None:
    made, _ = running
    said = {"name": SAUNTER, "text": (EXAMPLES / SAUNTER).read_text(), "bar": 2}
    connection = http.client.HTTPConnection("127.0.0.1", made.port)
    headers = {"Origin": f"http://127.0.0.1:{made.port}"}
    path = made.address.split(str(made.port), 1)[1]
    connection.request("POST", f"{path}do/set", json.dumps(said), headers)
    parts = [json.loads(line) for line in connection.getresponse().read().splitlines()]
    assert [part["kind"] for part in parts] == ["findings", "pages", "done"]
    assert parts[1]["pages"][0]["svg"].startswith("<svg")
    _, floor = made.ask("floor", said)
    assert floor["bar"] == 2 and len(floor["poses"]) > 2  # type: ignore[arg-type]
    connection.request("POST", f"{path}do/pdf", json.dumps(said), headers)
    assert connection.getresponse().read().startswith(b"%PDF")


def test_refuses_names_outside_and_large_requests(running: tuple[Desk, Path]) -> None:
    made, folder = running
    (folder.parent / "outside.yaml").write_text("title: o\n")
    for what in ("open", "save", "draft", "words", "floor", "pdf"):
        assert made.ask(what, {"name": "../outside.yaml", "text": "x"})[0] == 403
    assert made.ask("save", {"name": SAUNTER, "text": "x" * 1_000_001})[0] == 413
    assert made.ask("save", {"name": SAUNTER, "text": "x" * 3_000_000})[0] == 413
    assert made.ask("save", ["no object"])[0] == 400
    assert (folder.parent / "outside.yaml").read_text() == "title: o\n"


def test_refuses_other_hosts_origins_and_addresses(running: tuple[Desk, Path]) -> None:
    made, _ = running
    assert made.ask("dances", {}, Host=f"dances.example:{made.port}")[0] == 403
    assert made.ask("dances", {}, Origin="http://dances.example")[0] == 403
    good, made.address = made.address, f"http://127.0.0.1:{made.port}/other/"
    assert made.ask("dances", {})[0] == 403
    made.address = good


def test_listens_on_loopback_alone(running: tuple[Desk, Path]) -> None:
    own = socket.gethostbyname(socket.gethostname())
    if own.startswith("127."):
        pytest.skip("this machine has no other address")
    with pytest.raises(OSError):
        socket.create_connection((own, running[0].port), 2).close()


def test_ends_cleanly(tmp_path: Path) -> None:
    with desk(tmp_path) as made:
        made.process.send_signal(signal.SIGINT)
        assert made.process.wait(10) == 0
        assert made.process.stdout and "closed" in made.process.stdout.read()
