"""How Sphinx builds these documents: Markdown, the plainest theme, no warnings."""

project = "Evenhung"
author = "The Evenhung founders"
copyright = "2026, The Evenhung founders"

extensions = ["myst_parser"]
source_suffix = {".md": "markdown"}
root_doc = "index"
exclude_patterns = ["build"]
nitpicky = True

myst_heading_anchors = 3  # so that a page can point at a section of another

html_theme = "alabaster"
html_theme_options = {
    "description": "Sliding sash windows, hung true",
    "fixed_sidebar": True,
    "page_width": "72em",
}
html_static_path = ["static"]
html_css_files = ["reading.css"]
html_show_sourcelink = False
html_copy_source = False
