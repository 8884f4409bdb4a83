"""The browser of this machine, and what tests ask of it."""
import shutil
from typing import Any

NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
"""The first has the same engine without windows, and takes two thirds of the time."""
NOWHERE = ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"]
"""How browsers are started: of all hosts they find this machine alone."""


def browser() -> str | None:
    """The browser of this machine, if it has one."""
    return next(filter(None, map(shutil.which, NAMES)), None)


def grave(page: Any) -> list[str]:
    """What axe-core (Deque) calls serious or critical. Only of faults does it tell where they are."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page, options={"resultTypes": ["violations"]}).response["violations"]
    heavy = [one for one in found if one["impact"] in ("serious", "critical")]
    return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in heavy]


def heard(page: Any) -> list[dict[str, Any]]:
    """Every node that a screen reader is told of: role, name, and its properties (CDP, getFullAXTree)."""
    told = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    return [
        {"role": node["role"]["value"], "name": node.get("name", {}).get("value", ""),
         **{one["name"]: one["value"].get("value") for one in node.get("properties", [])}}
        for node in told if not node["ignored"]
    ]
