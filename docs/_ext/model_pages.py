"""One page for each module of models, written before the build, and the formula in each description."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from pathlib import Path
from types import FunctionType
from typing import Any

from docs._ext.markdown import plain, table
from mulewright import models

FOLDER = Path(__file__).parents[1] / "models" / "modules"
PAGE = """# {name}

```{{eval-rst}}
.. automodule:: mulewright.models.{name}
   :members:
```
"""


def modules() -> dict[str, str]:
    """Modules that hold models, each with the question that its first line asks."""
    found = {}
    for info in pkgutil.iter_modules(models.__path__):
        module = importlib.import_module(f"{models.__name__}.{info.name}")
        if any(hasattr(thing, "formula_text") for thing in vars(module).values()):
            found[info.name] = (inspect.getdoc(module) or "").splitlines()[0]
    return found


def index() -> str:
    """Write a line for each module, and put their pages into the menu."""
    rows = [(f"[{name}](modules/{name}.md)", plain(question)) for name, question in modules().items()]
    entries = "\n".join(f"modules/{name}" for name in modules())
    return f"{table(('module', 'what it answers'), rows)}\n```{{toctree}}\n:hidden:\n\n{entries}\n```\n"


def write_pages() -> None:
    """Write the page of each module; a page that is right already is left alone, an old one removed."""
    FOLDER.mkdir(exist_ok=True)
    wanted = {FOLDER / f"{name}.md": PAGE.format(name=name) for name in modules()}
    for path in set(FOLDER.glob("*.md")) - set(wanted):
        path.unlink()
    for path, text in wanted.items():
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")


def add_formula(app: object, what: str, name: str, thing: Any, settings: object, lines: list[str]) -> None:
    """Show a model's formula, and the range of its source, below its first paragraph."""
    if not isinstance(thing, FunctionType) or not hasattr(thing, "formula_text"):
        return
    ranges = getattr(thing, "valid_for", {})
    held = [f"{name} from {low:g} to {high:g}" for name, (low, high) in ranges.items()]
    added = [".. code-block:: python", "", f"   {thing.formula_text}", ""]
    added += [f"The source holds for {' and '.join(held)}, in SI.", ""] if held else []
    at = next(number for number, line in enumerate(lines) if line)  # the first paragraph begins here
    while at < len(lines) and lines[at]:
        at += 1
    lines[at:at] = ["", *added]
