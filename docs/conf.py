"""How the pages are built: Markdown pages plus docstrings, no file from another host."""

import sys
from importlib.metadata import version as installed_version
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))  # for docs._ext and the list that the tests keep

project = "Mulewright"
author = "Mulewright developers"
project_copyright = "2026, Mulewright developers"
version = release = installed_version("mulewright")

extensions = ["myst_parser", "numpydoc", "sphinx.ext.autodoc", "docs._ext.filling"]
myst_enable_extensions = ["colon_fence", "deflist"]
myst_heading_anchors = 3
exclude_patterns = ["_build"]
nitpicky = False

numpydoc_show_class_members = False
autodoc_member_order = "bysource"
autodoc_typehints = "none"  # each description says what a parameter is

html_theme = "furo"
html_title = "Mulewright"
html_copy_source = False
html_show_sphinx = False
html_static_path = ["_static"]
html_css_files = ["wide.css"]
