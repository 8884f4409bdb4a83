"""A desk that runs: what it answers and what it refuses over a real socket."""
import http.client
import json
import signal
import socket
from pathlib import Path

import pytest
from desking import EXAMPLES, Desk, desk

SAUNTER = "ferry-lane-saunter.yaml"


def test_lists_opens_and_knows_words(running: Desk, dance: Path) -> None:
    _, said = running.ask("dances", {})
    assert dance.name in [one["name"] for one in said["dances"]]  # type: ignore[attr-defined]
    _, opened = running.ask("open", {"name": dance.name})
    assert opened["text"] == (EXAMPLES / SAUNTER).read_text()
    _, words = running.ask("words", {"name": SAUNTER})
    assert "closed" in words["holds"] and "whisk" in [w.lower() for w in words["figures"]]  # type: ignore[attr-defined, operator]


def test_sets_pages_and_floor_and_pdf(running: Desk) -> None:
    said = {"name": SAUNTER, "text": (EXAMPLES / SAUNTER).read_text(), "bar": 2}
    connection = http.client.HTTPConnection("127.0.0.1", running.port)
    headers = {"Origin": f"http://127.0.0.1:{running.port}"}
    path = running.address.split(str(running.port), 1)[1]
    connection.request("POST", f"{path}do/set", json.dumps(said), headers)
    parts = [json.loads(line) for line in connection.getresponse().read().splitlines()]
    assert [part["kind"] for part in parts] == ["findings", "pages", "done"]
    assert parts[1]["pages"][0]["svg"].startswith("<svg")
    _, floor = running.ask("floor", said)
    assert floor["bar"] == 2 and len(floor["poses"]) > 2  # type: ignore[arg-type]
    connection.request("POST", f"{path}do/pdf", json.dumps(said), headers)
    assert connection.getresponse().read().startswith(b"%PDF")


def test_refuses_names_outside_and_large_requests(running: Desk) -> None:
    folder = running.folder
    (folder.parent / "outside.yaml").write_text("title: o\n")
    for what in ("open", "save", "draft", "words", "floor", "pdf"):
        assert running.ask(what, {"name": "../outside.yaml", "text": "x"})[0] == 403
    assert running.ask("save", {"name": SAUNTER, "text": "x" * 1_000_001})[0] == 413
    assert running.ask("save", {"name": SAUNTER, "text": "x" * 3_000_000})[0] == 413
    assert running.ask("save", ["no object"])[0] == 400
    assert (folder.parent / "outside.yaml").read_text() == "title: o\n"


def test_refuses_other_hosts_origins_and_addresses(running: Desk) -> None:
    assert running.ask("dances", {}, Host=f"dances.example:{running.port}")[0] == 403
    assert running.ask("dances", {}, Origin="http://dances.example")[0] == 403
    good, running.address = running.address, f"http://127.0.0.1:{running.port}/other/"
    assert running.ask("dances", {})[0] == 403
    running.address = good


def test_listens_on_loopback_alone(running: Desk) -> None:
    own = socket.gethostbyname(socket.gethostname())
    if own.startswith("127."):
        pytest.skip("this machine has no other address")
    with pytest.raises(OSError):
        socket.create_connection((own, running.port), 2).close()


def test_ends_cleanly(tmp_path: Path) -> None:
    with desk(tmp_path) as made:
        made.process.send_signal(signal.SIGINT)
        assert made.process.wait(10) == 0
        assert made.process.stdout and "closed" in made.process.stdout.read()
