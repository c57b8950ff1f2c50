"""The app: one folder per feature; a view reads what was sent, calls plan or store, and renders."""
