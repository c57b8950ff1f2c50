"""How each sash ran once the work was done: taken down at the window, judged, counted."""
