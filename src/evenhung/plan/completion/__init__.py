"""Whether every sash stays where it is put once the work is done: tried, held against the plan."""
