"""What the work on a house costs: the price and where it comes from, its terms, hours booked."""
