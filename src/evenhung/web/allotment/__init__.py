"""The best use of every weight in a house: worked out, shown, decided on."""
