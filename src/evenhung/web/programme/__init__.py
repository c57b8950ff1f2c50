"""When the work is done: the programme worked out, shown day by day, and moved when one is lost."""
