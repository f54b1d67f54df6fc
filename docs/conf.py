"""How the pages are built: Markdown pages plus docstrings, no file from another host."""

from importlib.metadata import version as installed_version

project = "Mulewright"
author = "Mulewright developers"
project_copyright = "2026, Mulewright developers"
version = release = installed_version("mulewright")

extensions = ["myst_parser", "numpydoc", "sphinx.ext.autodoc"]
myst_enable_extensions = ["colon_fence", "deflist"]
myst_heading_anchors = 3
exclude_patterns = ["_build"]
nitpicky = False

numpydoc_show_class_members = False
autodoc_member_order = "bysource"

html_theme = "furo"
html_title = "Mulewright"
html_copy_source = False
