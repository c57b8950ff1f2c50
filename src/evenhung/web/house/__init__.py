"""One house: its windows, what is known of it, its history, what is taken out of it."""
