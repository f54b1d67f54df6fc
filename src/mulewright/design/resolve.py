"""From the text of a mule file to one checked description, or to everything that is wrong with it."""

from __future__ import annotations

import pathlib
from collections.abc import Iterable
from dataclasses import dataclass, field

from pydantic import ValidationError

from mulewright.design.merging import Raw, drop_unknown
from mulewright.design.migrate import migrate
from mulewright.design.overlay import apply_settings, apply_variant
from mulewright.design.placing import Override, Placement
from mulewright.design.problems import problems_of, together
from mulewright.design.reading import parse, read_text
from mulewright.design.schema.file import MuleFile
from mulewright.design.typed import Typed
from mulewright.shelf.catalog import Catalog, catalog_for


@dataclass(frozen=True)
class Loaded:
    """A mule file that was read and found well-formed."""

    file: MuleFile
    raw: Raw  # after variant, settings, parts; without unknowns
    base: Raw  # as the file says it, in today's form
    said: Raw  # the same with variant and settings
    text: str
    where: str
    folder: pathlib.Path | None
    overrides: tuple[Override, ...]
    catalog: Catalog = field(compare=False, repr=False)

    @property
    def typed(self) -> Typed:
        """Where in the text each thing stands."""
        return Typed(self.where, self.text, self.base, self.said)


def load(
    path: str | pathlib.Path,
    settings: Iterable[str] = (),
    variant: str | None = None,
    catalog: Catalog | None = None,
) -> Loaded:
    """Read a mule file with a variant and settings laid over it.

    Raises
    ------
    MulewrightError
        If the file cannot be read, or does not describe a mule.
    """
    path = pathlib.Path(path)
    return load_text(read_text(path), str(path), path.parent, settings, variant, catalog)


def load_text(
    text: str,
    where: str = "mule.toml",
    folder: pathlib.Path | None = None,
    settings: Iterable[str] = (),
    variant: str | None = None,
    catalog: Catalog | None = None,
) -> Loaded:
    """Read the text of a mule file; the folder is where its own shelf may lie."""
    base = migrate(parse(text, where))
    raw = overlaid(base, settings, variant)
    return build(raw, where, folder, text=text, base=base, catalog=catalog)


def rebuild(loaded: Loaded, settings: Iterable[str] = (), variant: str | None = None) -> Loaded:
    """Resolve the same file again, with the same shelf and other settings."""
    raw, base = overlaid(loaded.base, settings, variant), loaded.base
    return build(raw, loaded.where, loaded.folder, text=loaded.text, base=base, catalog=loaded.catalog)


def overlaid(base: Raw, settings: Iterable[str] = (), variant: str | None = None) -> Raw:
    """Lay first the variant, then the settings over a description."""
    return apply_settings(apply_variant(base, variant) if variant else base, settings)


def build(
    raw: Raw,
    where: str = "mule.toml",
    folder: pathlib.Path | None = None,
    *,
    text: str = "",
    base: Raw | None = None,
    catalog: Catalog | None = None,
) -> Loaded:
    """Fill the parts into a description and check every value of it.

    Raises
    ------
    MulewrightError
        If a part is on no shelf, or values are not what belongs there: all of them at once.
    """
    base = raw if base is None else base
    catalog = catalog or catalog_for(folder)
    typed = Typed(where, text, base, raw)
    placement = Placement(catalog, typed)
    placed = placement.everywhere(raw)
    known = drop_unknown(placed) | {key: placed[key] for key in ("variant",) if key in placed}
    problems = [*placement.problems]
    try:
        file = MuleFile.model_validate(known)
    except ValidationError as error:
        problems += problems_of(error, known, typed)
    if problems:
        raise together(problems, where)
    return Loaded(file, known, base, raw, text, where, folder, tuple(placement.overrides), catalog)
