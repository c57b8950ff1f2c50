"""Away from any connection: pages as they were last seen, and a house taken along on purpose."""
