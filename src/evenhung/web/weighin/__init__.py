"""The weigh-in: one thing after another on the scale, with the verdict as it comes."""
