"""Who is refused. RFC 6454 (Origin), RFC 9110 7.2 (Host), Fetch Metadata (W3C) for what the headers mean."""
import pytest

from notation.desk.guard import refusal

GOOD = {"host": "127.0.0.1:8437", "origin": "http://127.0.0.1:8437"}


def asked(method: str = "POST", path: str = "/token/do/save", **headers: str) -> str | None:
    said = {**GOOD, **{key.replace("_", "-"): value for key, value in headers.items()}}
    return refusal(method, path, said, "token", 8437)


def test_the_page_itself_is_answered() -> None:
    assert asked() is None
    assert asked("GET", "/token/", origin="") is None
    assert asked(host="localhost:8437", origin="http://localhost:8437") is None


@pytest.mark.parametrize("headers", [
    {"host": "dances.example:8437"}, {"host": "127.0.0.1"}, {"host": "127.0.0.1:80"}, {"host": ""},
    {"origin": "http://dances.example"}, {"origin": "null"}, {"origin": ""}, {"origin": "http://127.0.0.1:1"},
    {"origin": "http://localhost:8437"}, {"sec_fetch_site": "cross-site"}, {"sec_fetch_site": "same-site"},
])
def test_others_are_refused(headers: dict[str, str]) -> None:
    assert asked(**headers)


@pytest.mark.parametrize("path", ["/", "/tok/do/save", "/token2/", "//token/", "/TOKEN/", "token", ""])
def test_other_addresses_are_refused(path: str) -> None:
    assert asked(path=path)
