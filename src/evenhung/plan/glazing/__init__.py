"""Glass: the panes to order, their putty, and the rules on safety glass and guarding."""
