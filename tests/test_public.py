"""The public names take a dance from its bytes to a PDF, as the docstring of the package says."""
import re
from pathlib import Path

import pypdf

import notation

EXAMPLE = Path(__file__).parent.parent / "examples" / "ferry-lane-saunter.yaml"


def test_the_road_of_the_docstring(tmp_path: Path) -> None:
    lines = re.findall(r"^    (\w+ = .*)$", notation.__doc__ or "", re.MULTILINE)
    assert len(lines) == 6
    names: dict[str, object] = {name: getattr(notation, name) for name in notation.__all__}
    names |= {"source": EXAMPLE.read_bytes(), "fonts": notation.data_folder("fonts")}
    exec("\n".join(lines), names)
    assert names["findings"] == ()
    (tmp_path / "s.pdf").write_bytes(names["pdf"])  # type: ignore[arg-type]
    assert "Ferry Lane Saunter" in pypdf.PdfReader(tmp_path / "s.pdf").pages[0].extract_text()


def test_every_public_name_has_a_home() -> None:
    assert sorted(notation.__all__) == sorted(notation.HOMES)
